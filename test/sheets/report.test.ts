import { describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { findingsSheet } from '../../src/audit/check/sheet';
import { traceSheet } from '../../src/audit/trace/sheet';
import { trace } from '../../src/audit/trace/trace';
import type { BookSheet } from '../../src/sheets/book';
import { logPlan, withLines } from '../../src/sheets/log';
import type { Plan } from '../../src/sheets/plan';
import { bookOf, realize } from '../../src/sheets/realize';
import { heightOf } from '../../src/sheets/report';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { measured, smallest, withSheet } from '../audit/sheets';
import { createPaneHost } from '../excel/host';
import { recalculate } from '../tools/libreoffice';

const MOMENT = { when: '2026-11-25T09:30:00Z', who: '=A. Nobody (invented)', program: '0.1.0' };
const book = smallest();
const name = book.sheets[0]!.name;

/** Findings with texts that a spreadsheet would like to take for something else. */
async function findings(): Promise<Plan> {
  const spoiled = withSheet(book, 0, (sheet) => ({
    ...sheet,
    isProtected: false,
    cells: {
      ...sheet.cells,
      Z50: { value: '+49 30 12' },
      Z51: { value: 12, formula: '=HYPERLINK("x","@y")' },
      Z52: { value: '007' },
    },
  }));
  return findingsSheet(await check(spoiled), MOMENT, 'f1');
}
const chain = () => traceSheet(trace(book, name, 'WhiteLightOutput')!, MOMENT, 't1');
const texts = ({ cells }: Pick<BookSheet, 'cells'>) =>
  Object.fromEntries(
    Object.entries(cells).flatMap(([at, { value }]) => {
      if (value === null) return [];
      // Fifteen digits are what every spreadsheet program keeps.
      return [[at, typeof value === 'number' ? Number(value.toPrecision(15)) : value]];
    }),
  );

it('findings and chains are marked as a report of a moment, with program and sheet', async () => {
  for (const plan of [await findings(), chain()]) {
    const shown = Object.values(plan.cells).map(({ value }) => value);
    expect(shown).toContain('2026-11-25 09:30:00 UTC');
    expect(shown).toContain('=A. Nobody (invented)');
    expect(shown).toContain('Light Output Workbook 0.1.0');
    expect(shown.some((value) => String(value).includes(name))).toBe(true);
    expect(shown.some((value) => /^A report of one moment/.test(String(value)))).toBe(true);
    expect(Object.values(plan.cells).some(({ formula }) => formula !== undefined)).toBe(false);
  }
});

it('a chain has a line for each step, moved in by its level, down to the readings', () => {
  const plan = chain();
  const range = plan.names.find((each) => each.name === 'ReportLines')!.range;
  const first = Number(/\d+/.exec(range)![0]);
  expect(plan.cells[`A${first}`]!.value).toBe(0);
  expect(plan.cells[`B${first}`]!.value).toBe('White light output');
  const what = Object.entries(plan.cells).filter(([at]) => /^B/.test(at));
  expect(what.some(([, { value }]) => /^\u00a0{4,}.*numbers on the display/.test(String(value)))).toBe(true);
});

describe('text stays text', () => {
  it('in the spreadsheet of the workbench', async () => {
    const { host } = await createPaneHost();
    for (const plan of [await findings(), chain()]) {
      const { sheet } = await host.build(plan);
      const found = (await host.book({ sheets: [sheet] })).sheets[0]!;
      expect(texts(found)).toEqual(texts(realize(plan)));
      expect(Object.values(found.cells).some(({ formula }) => formula !== undefined)).toBe(false);
    }
  });

  // LibreOffice Calc as the second opinion on the file, read by ExcelJS.
  it('in a file, opened and saved by LibreOffice', async () => {
    const log = withLines(realize(logPlan('l1')), [
      { ...MOMENT, what: 'built', sheet: '=Run 1', detail: '@now' },
      { ...MOMENT, what: 'checked', sheet: '-1', detail: '1/2' },
    ]);
    const { sheets } = bookOf([await findings(), chain()]);
    const written = await writeXlsx({ sheets: [...sheets, log], names: [] });
    const [again] = await recalculate([written]);
    for (const [at, sheet] of [...sheets, log].entries())
      expect(texts(again!.sheets[at]!)).toEqual(texts(sheet));
    const read = await readXlsx(written);
    expect(read.sheets.map(texts)).toEqual([...sheets, log].map(texts));
  });
});

it('more findings than anyone reads are counted, not listed', async () => {
  const many = Object.fromEntries(Array.from({ length: 2100 }, (_, i) => [`Z${i + 60}`, { value: i }]));
  const report = await check(withSheet(book, 0, (s) => ({ ...s, cells: { ...s.cells, ...many } })));
  const plan = findingsSheet(report, MOMENT, 'f1');
  expect(Object.values(plan.cells).map(({ value }) => value)).toContain('100 further findings');
});

it('rows are as high as their longest text needs', () => {
  // 26 characters in a column of 10 are three lines and a bit with words kept whole.
  expect(
    heightOf([
      ['abc', 10],
      ['a'.repeat(26), 10],
    ]),
  ).toBe(3 * 13 + 3);
  expect(heightOf([['a\nb', 10]])).toBe(2 * 13 + 3);
  expect(heightOf([['a'.repeat(1e5), 10]])).toBe(400);
});

it('the names of sheets of any length give a sheet name that Excel takes', () => {
  const long = { ...measured(1).sheets[0]!, name: 'A run with the longest name here' };
  const plan = traceSheet(trace({ sheets: [long], names: [] }, long.name, 'B20')!, MOMENT, 't1');
  expect(bookOf([plan, plan]).sheets.every(({ name: each }) => each.length <= 31)).toBe(true);
});
