import type { PlanBuilder } from '../builder';
import { BUDGET_IDS, BUDGET_RESULT, type BudgetId, canBeBound } from '../run/budgetid';
import type { ComparedRun } from './run';
import type { Overview } from './summary';
import type { ExpandedAt } from './workings';

/** Columns of difference, its U and the verdict: three results stand side by side. */
const COLUMNS = [
  ['B', 'C', 'D'],
  ['E', 'F', 'G'],
  ['H', 'I', 'J'],
] as const;
type Columns = (typeof COLUMNS)[number];
const DIFFERENT = 'different';
const ALIKE = 'not distinguishable';

/** Results in bands of three, the bands below one another. */
function bandsOf(ids: readonly BudgetId[]): BudgetId[][] {
  return Array.from({ length: Math.ceil(ids.length / COLUMNS.length) }, (_, i) =>
    ids.slice(i * COLUMNS.length, (i + 1) * COLUMNS.length),
  );
}

/** Rows that the pairs of so many runs take in so many results, headings and blank rows between bands included. */
export function pairRows(runs: number, results: number): number {
  return Math.ceil(results / COLUMNS.length) * ((runs * (runs - 1)) / 2 + 2) - 1;
}

/** Every two runs: difference, its uncertainty, and whether the difference is real. Returns the first row below. */
export function putPairs(
  b: PlanBuilder,
  start: number,
  runs: readonly ComparedRun[],
  overview: Overview,
  expanded: Readonly<Partial<Record<BudgetId, ExpandedAt>>>,
): number {
  const bands = bandsOf(BUDGET_IDS.filter((id) => expanded[id]));
  const rows = (runs.length * (runs.length - 1)) / 2;
  bands.forEach((ids, i) => {
    const first = start + i * (rows + 2);
    putBand(b, first, ids, runs, overview, expanded);
    if (i === 0) b.name('PairNames', `A${first + 1}:A${first + rows}`, 'Every two runs');
  });
  return start + pairRows(runs.length, bands.flat().length);
}

function putBand(
  b: PlanBuilder,
  start: number,
  ids: readonly BudgetId[],
  runs: readonly ComparedRun[],
  overview: Overview,
  expanded: Readonly<Partial<Record<BudgetId, ExpandedAt>>>,
): void {
  b.put(`A${start}`, { role: 'heading', value: 'Every two runs' }).height(start, 30);
  ids.forEach((id, i) => {
    const { short, unit } = BUDGET_RESULT[id];
    const [difference, u, verdict] = COLUMNS[i]!;
    const hasUnit = unit !== '' && unit !== ': 1';
    b.put(`${difference}${start}`, { role: 'heading', value: hasUnit ? `${short}, ${unit}` : short });
    b.put(`${u}${start}`, { role: 'heading', value: 'its U' });
    b.put(`${verdict}${start}`, { role: 'heading', value: 'so they are' });
  });
  let row = start + 1;
  runs.forEach((a, i) => {
    for (const c of runs.slice(i + 1)) {
      b.put(`A${row}`, {
        role: 'check',
        formula: `=${overview.cell('name', a)}&"  minus  "&${overview.cell('name', c)}`,
      }).height(row, 26);
      ids.forEach((id, i) => {
        putPair(b, row, COLUMNS[i]!, id, a, c, overview, expanded[id]!);
      });
      row++;
    }
  });
  const column = (letter: string) => `${letter}${start + 1}:${letter}${row - 1}`;
  ids.forEach((id, i) => {
    const { label } = BUDGET_RESULT[id];
    const [difference, u, verdict] = COLUMNS[i]!;
    b.name(`${id}PairDifferences`, column(difference), `Differences of ${label}`);
    b.name(`${id}PairU`, column(u), `Expanded uncertainties of the differences of ${label}`);
    b.name(`${id}PairVerdicts`, column(verdict), `Whether ${label} differs`);
  });
}

function putPair(
  b: PlanBuilder,
  row: number,
  columns: Columns,
  id: BudgetId,
  a: ComparedRun,
  c: ComparedRun,
  overview: Overview,
  expanded: ExpandedAt,
): void {
  const [difference, u, verdict] = columns.map((column) => `${column}${row}`) as [string, string, string];
  const { format } = BUDGET_RESULT[id];
  if (!a.components[id] || !c.components[id]) {
    b.put(difference, { role: 'derived', value: 'not measured' });
    b.put(u, { role: 'derived', value: '' });
    b.put(verdict, { role: 'check', value: '' });
    return;
  }
  const [x, y] = [overview.cell(id, a), overview.cell(id, c)];
  b.put(difference, {
    role: 'derived',
    formula: `=IF(COUNT(${x},${y})<2,${canBeBound(id) ? `IF(OR(LEFT(${x},8)="at least",LEFT(${y},8)="at least"),"a bound","waiting")` : '"waiting"'},${x}-${y})`,
    format,
  });
  b.put(u, { role: 'derived', formula: `=${expanded(a, c)}`, format });
  b.put(verdict, {
    role: 'check',
    formula: `=IF(COUNT(${difference},${u})<2,${canBeBound(id) ? `IF(${difference}="a bound","not known","waiting")` : '"waiting"'},IF(ABS(${difference})>${u},"${DIFFERENT}","${ALIKE}"))`,
  });
}
