import { unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { ageingPlan } from '../../src/sheets/ageing';
import { defaultAgeing } from '../../src/sheets/ageing/setup';
import type { ColumnChart } from '../../src/sheets/book';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { writeXlsx } from '../../src/xlsx/write';
import { comparedRun } from '../sheets/comparedruns';
import { SETUPS } from '../sheets/setups';
import { convert } from '../tools/libreoffice';

const plans = ['full-fields', 'tiled-everything'].map((name, i) => runPlan(SETUPS[name]!, `a${i}`));

/** A workbook of two runs and their comparison, which has a chart. */
function book() {
  const names = bookOf(plans).sheets.map(({ name }) => name);
  const outcome = comparisonPlan(
    plans.map((plan, i) => comparedRun(plan, names[i]!)),
    { ...DEFAULT_COMPARISON, title: "Anna's comparison" },
    'cmp1',
  );
  if (!outcome.ok) throw new Error('No comparison');
  return bookOf([...plans, outcome.value]);
}
const charts = (bytes: Uint8Array) =>
  Object.entries(unzipSync(bytes)).filter(([name]) => /^xl\/charts\/chart\d+\.xml$/.test(name));

it('a file holds the chart with its ranges, and LibreOffice keeps it when it saves the file anew', async () => {
  const { title, series, categories } = book().sheets.at(-1)!.charts![0] as ColumnChart;
  const file = await writeXlsx(book());
  const written = charts(file);
  expect(written).toHaveLength(1);
  const text = new TextDecoder().decode(written[0]![1]);
  const dollars = (range: string) => range.replace(/([A-Z]+)(\d+)/g, '$$$1$$$2');
  expect(text).toContain(title);
  for (const { values } of series)
    expect(text).toContain(`<c:f>'Anna''s comparison'!${dollars(values)}</c:f>`);
  expect(text).toContain(dollars(categories));
  const [saved] = await convert([file], 'xlsx');
  expect(charts(saved!)).toHaveLength(1);
}, 120_000);

it('points have no line, dashes are dashes, and LibreOffice keeps a scatter chart', async () => {
  const plan = ageingPlan(
    {
      ...defaultAgeing('Unit 1 (invented)'),
      needed: 2000,
      points: [
        { hours: 0, output: 3000 },
        { hours: 1000, output: 2800 },
        { hours: 2000, output: 2600 },
      ],
    },
    'a1',
  );
  const file = await writeXlsx(bookOf([plan]));
  const [, bytes] = charts(file)[0]!;
  const [first, ...others] = new TextDecoder().decode(bytes).split('<c:ser>').slice(1);
  // ECMA-376-1, 20.1.8.44: no fill means no line.
  expect(first).toContain('<a:ln><a:noFill/></a:ln>');
  expect(others.map((xml) => xml.includes('<a:prstDash val="dash"/>'))).toEqual([false, true, false]);
  const [saved] = await convert([file], 'xlsx');
  expect(new TextDecoder().decode(charts(saved!)[0]![1])).toContain('<c:scatterChart>');
}, 120_000);
