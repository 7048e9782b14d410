import { columnName } from '../address';
import type { PlanBuilder } from '../builder';
import { linkTo } from '../link';
import { BUDGET_IDS, BUDGET_RESULT, type BudgetId } from '../run/budgetid';
import { FORMAT } from '../run/layout';
import { type ComparedRun, MOST_RUNS } from './run';

/** Rows of the overview that other blocks refer to. */
export interface Overview {
  readonly next: number;
  readonly cell: (row: OverviewRow, run: ComparedRun) => string;
}
export type OverviewRow = 'name' | BudgetId | 'price' | 'meter' | 'image';

interface Line {
  readonly label: string;
  readonly name: string;
  /** Name on the run sheet. */
  readonly from: string;
  readonly format: string;
  readonly row?: OverviewRow;
}

/** How the overview calls each result, and how its values look. */
const RESULTS: Readonly<Record<BudgetId, readonly [label: string, format: string]>> = {
  White: ['White light output, lm', FORMAT.lumens],
  Colour: ['Colour light output, lm', FORMAT.lumens],
  Ratio: ['Colour to white ratio', FORMAT.ratio],
  Luminance: ['Mean screen luminance, cd/m²', FORMAT.luminance],
  Uniformity: ['Uniformity, min ÷ max of nine', FORMAT.percent],
  Contrast: ['Sequential contrast, net, : 1', '#,##0'],
  Board: ['Checkerboard contrast, net, : 1', '#,##0.0'],
};

/** Each result and its U. Plain formulas are linked, so that a comparison lives without the add-in as the runs do. */
const LINES: readonly Line[] = BUDGET_IDS.flatMap((id): Line[] => {
  const { name, unit, format } = BUDGET_RESULT[id];
  const [label, valueFormat] = RESULTS[id];
  return [
    { label, name: `${id}Values`, from: `${name}Plain`, format: valueFormat, row: id },
    {
      label: unit && unit !== ': 1' ? `    U, ${unit}` : '    U',
      name: `${id}U`,
      from: `${id}ExpandedPlain`,
      format,
    },
  ];
});
const NOT_MEASURED = 'not measured';

/** Results of the runs side by side, one column a run, and what they have in common. */
export function putOverview(b: PlanBuilder, start: number, runs: readonly ComparedRun[]): Overview {
  const rows = new Map<OverviewRow, number>();
  const at = (run: ComparedRun, row: number) => `${columnName(1 + runs.indexOf(run))}${row}`;
  const range = (row: number) => `${at(runs[0]!, row)}:${at(runs.at(-1)!, row)}`;
  let row = start;
  rows.set('name', row);
  b.put(`A${row}`, { role: 'heading', value: 'Side by side' }).height(row, 40);
  for (const run of runs) b.put(at(run, row), { role: 'check', formula: `=${nameFormula(run)}` });
  b.name('RunNames', range(row), 'Projector and mode of each run');
  row++;
  // What no run has takes no row.
  for (const line of LINES.filter(({ from }) => runs.some((run) => linkTo(run, from)))) {
    b.put(`A${row}`, { role: 'label', value: line.label });
    for (const run of runs) {
      const link = linkTo(run, line.from);
      b.put(
        at(run, row),
        link
          ? { role: 'derived', formula: `=IF(${link}="","waiting",${link})`, format: line.format }
          : { role: 'derived', value: NOT_MEASURED },
      );
    }
    b.name(line.name, range(row), line.label.trim());
    if (line.row) rows.set(line.row, row);
    row++;
  }
  rows.set('price', row);
  row = putPrices(b, row, runs, at, range, rows.get('White')!);
  for (const [key, label, name] of [
    ['meter', 'Meter, by number', 'MeterCodes'],
    ['image', 'Image, by number', 'ImageCodes'],
  ] as const) {
    rows.set(key, row);
    b.put(`A${row}`, { role: 'label', value: label });
    for (const run of runs) b.put(at(run, row), { role: 'factor', value: run[key], format: '0' });
    b.name(name, range(row), `${label}: runs with equal numbers have one and the same`);
    b.validate({
      range: range(row),
      rule: { type: 'number', min: 1, max: MOST_RUNS, whole: true },
      prompt: {
        title: label,
        message: `Give runs that were ${key === 'meter' ? 'read with one and the same meter' : 'measured on one and the same image'} the same number: what they share then counts once.`,
      },
      refusal: { title: label, message: `A whole number from 1 to ${MOST_RUNS}.`, style: 'stop' },
    });
    row++;
  }
  return { next: row, cell: (key, run) => at(run, rows.get(key)!) };
}

/** "Unit B, Bright"; the sheet's own cells, so that a correction there shows here. */
function nameFormula(run: ComparedRun): string {
  const [projector, mode] = [linkTo(run, 'Projector'), linkTo(run, 'PictureMode')];
  if (!projector) return `"${run.sheet.replace(/"/g, '""')}"`;
  return mode ? `${projector}&IF(${mode}="","",", "&${mode})` : `${projector}&""`;
}

function putPrices(
  b: PlanBuilder,
  row: number,
  runs: readonly ComparedRun[],
  at: (run: ComparedRun, row: number) => string,
  range: (row: number) => string,
  white: number,
): number {
  b.put(`A${row}`, { role: 'label', value: 'Price, if known' });
  b.put(`A${row + 1}`, { role: 'label', value: 'Price per white lumen' });
  for (const run of runs) {
    const [price, lumens] = [at(run, row), at(run, white)];
    b.put(price, {
      role: 'input',
      format: '#,##0.00',
      ...(run.price === undefined ? {} : { value: run.price }),
    });
    b.put(at(run, row + 1), {
      role: 'derived',
      formula: `=IF(COUNT(${price},${lumens})<2,"",${price}/${lumens})`,
      format: '0.000',
    });
  }
  b.name('Prices', range(row), 'Price of each unit, in one currency');
  b.name('PricesPerLumen', range(row + 1), 'Price per lumen of measured white light output');
  b.validate({
    range: range(row),
    rule: { type: 'number', min: 0, max: 1e9 },
    prompt: { title: 'Price', message: 'Of one unit, all in one currency. Leave empty what is not known.' },
    refusal: { title: 'Price', message: 'A number of 0 or more, without a currency sign.', style: 'stop' },
  });
  return row + 2;
}
