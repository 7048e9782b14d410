import { DEFAULT_LEVEL } from '../metrology/words';
import { chain, good, type Outcome } from '../photometry/outcome';
import { columnName } from './address';
import type { ColumnChart } from './book';
import { PlanBuilder } from './builder';
import { pairRows, putPairs } from './comparison/pairs';
import { type ComparedRun, comparable, withBudget } from './comparison/run';
import { DEFAULT_SHARING, type SharingOptions } from './comparison/sharing';
import { type Overview, type OverviewRow, putOverview } from './comparison/summary';
import { type Codes, type ExpandedAt, putWorkings } from './comparison/workings';
import type { Plan } from './plan';
import { BUDGET_IDS, type BudgetId } from './run/budgetid';
import { percent } from './run/percent';
import { within } from './setup/cell';
import { LEVEL } from './setup/fields';

/** Layout version of comparison sheets. */
export const COMPARISON_VERSION = 4;

export interface ComparisonOptions {
  readonly title: string;
  /** Level of confidence of every U of a difference. */
  readonly level: number;
  readonly sharing: SharingOptions;
}
export const DEFAULT_COMPARISON: ComparisonOptions = {
  title: 'Comparison',
  level: DEFAULT_LEVEL,
  sharing: DEFAULT_SHARING,
};

/**
 * The comparison sheet: two to twelve runs of one workbook side by side, and which of them differ. It holds links
 * to the run sheets, which follow when a sheet is renamed, and no number of its own but what is shared.
 *
 * @param id unique to this sheet, lower-case letters and digits
 * @returns a problem where the runs cannot stand beside each other
 */
export function comparisonPlan(
  runs: readonly ComparedRun[],
  { title, level, sharing }: ComparisonOptions,
  id: string,
): Outcome<Plan> {
  return chain(comparable(runs), () => {
    const b = new PlanBuilder();
    const last = columnName(Math.max(9, 3 + runs.length));
    b.wide(`A1:${last}1`, { role: 'title', value: 'Comparison of runs' }).height(1, 26);
    b.wide(`A2:${last}2`, { role: 'note', value: METHOD }).height(2, 52);
    const overview = putOverview(b, 4, runs);
    putLevel(b, overview.next, level);
    const pairs = overview.next + 2;
    const expanded: Partial<Record<BudgetId, ExpandedAt>> = {};
    const codes: Codes = {
      name: (run) => overview.cell('name', run),
      meter: (run) => overview.cell('meter', run),
      image: (run) => overview.cell('image', run),
    };
    const ids = BUDGET_IDS.filter((id) => withBudget(runs, id).length >= 2);
    b.part(pairs);
    let row = pairs + pairRows(runs.length, ids.length) + 1;
    for (const result of ids) {
      const those = withBudget(runs, result);
      const workings = putWorkings(b.part(row), row, result, those, codes, sharing);
      expanded[result] = workings.expanded;
      row = workings.next;
    }
    putPairs(b, pairs, runs, overview, expanded);
    const plan = b.build({
      kind: 'comparison',
      version: COMPARISON_VERSION,
      id,
      title,
      columns: { A: 30, ...Object.fromEntries(columns(last).map((name) => [name, 15])) },
      print: { orientation: 'landscape', titleColumns: 'A:A' },
      start: overview.cell('price', runs[0]!),
      freeze: { rows: 1, columns: 0 },
    });
    return good({ ...plan, charts: [chartOf(runs, overview)] });
  });
}

/** White and colour light output as columns, to the right of everything else. */
function chartOf(runs: readonly ComparedRun[], { cell }: Overview): ColumnChart {
  const row = (key: OverviewRow) => `${cell(key, runs[0]!)}:${cell(key, runs.at(-1)!)}`;
  const first = Math.max(10, 4 + runs.length) + 1;
  const hasColour = runs.some(({ components }) => components.Colour);
  return {
    title: 'Light output, lm',
    over: `${columnName(first)}4:${columnName(first + 7)}19`,
    categories: row('name'),
    series: [
      { name: 'white', values: row('White') },
      ...(hasColour ? [{ name: 'colour', values: row('Colour') }] : []),
    ],
  };
}

const METHOD =
  'Every figure is linked to its run sheet. Two runs are different when their difference is larger than its own expanded uncertainty U; ' +
  'otherwise this measurement cannot tell them apart, which does not mean that they are equal. What two runs share, such as one meter, counts once: ' +
  'the tinted 1 and 0 below say what is shared. U of a uniformity or a contrast takes it for near linear; each run sheet says where that is rough.';

function putLevel(b: PlanBuilder, row: number, level: number): void {
  b.put(`A${row}`, { role: 'label', value: 'Level of confidence' });
  b.put(`B${row}`, { role: 'input', value: level, format: '0.00 %' });
  b.name('Level', `B${row}`, 'Level of confidence');
  b.validate({
    range: `B${row}`,
    rule: { type: 'number', ...LEVEL },
    prompt: {
      title: 'Level of confidence',
      message: `Of every U of a difference. 95.45 % is about two standard deviations. From ${percent(LEVEL.min)} to ${percent(LEVEL.max)}.`,
    },
    refusal: { title: 'Level of confidence', message: `A level ${within(LEVEL, true)}.`, style: 'stop' },
  });
}

/** B to the last column. */
function columns(last: string): string[] {
  const names: string[] = [];
  for (let i = 1; ; i++) {
    names.push(columnName(i));
    if (columnName(i) === last) return names;
  }
}

export type { ComparedRun } from './comparison/run';
