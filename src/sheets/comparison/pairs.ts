import type { PlanBuilder } from '../builder';
import { BUDGET_RESULT, type BudgetId } from '../run/budgetid';
import type { ComparedRun } from './run';
import type { Overview } from './summary';
import type { ExpandedAt } from './workings';

/** Columns of difference, its U and the verdict, for each result. */
const COLUMNS: Readonly<Record<BudgetId, readonly [string, string, string]>> = {
  White: ['B', 'C', 'D'],
  Colour: ['E', 'F', 'G'],
  Ratio: ['H', 'I', 'J'],
};
export const DIFFERENT = 'different';
export const ALIKE = 'not distinguishable';

/** Rows that the pairs of so many runs take, headings included. */
export function pairRows(runs: number): number {
  return (runs * (runs - 1)) / 2 + 1;
}

/** Every two runs: difference, its uncertainty, and whether the difference is real. Returns the first row below. */
export function putPairs(
  b: PlanBuilder,
  start: number,
  runs: readonly ComparedRun[],
  overview: Overview,
  expanded: Readonly<Partial<Record<BudgetId, ExpandedAt>>>,
): number {
  const ids = (Object.keys(COLUMNS) as BudgetId[]).filter((id) => expanded[id]);
  b.put(`A${start}`, { role: 'heading', value: 'Every two runs' }).height(start, 30);
  for (const id of ids) {
    const { unit } = BUDGET_RESULT[id];
    const words = { White: 'white', Colour: 'colour', Ratio: 'ratio' }[id];
    const [difference, u, verdict] = COLUMNS[id];
    b.put(`${difference}${start}`, { role: 'heading', value: unit ? `${words}, ${unit}` : words });
    b.put(`${u}${start}`, { role: 'heading', value: 'its U' });
    b.put(`${verdict}${start}`, { role: 'heading', value: 'so they are' });
  }
  let row = start + 1;
  runs.forEach((a, i) => {
    for (const c of runs.slice(i + 1)) {
      b.put(`A${row}`, {
        role: 'check',
        formula: `=${overview.cell('name', a)}&"  minus  "&${overview.cell('name', c)}`,
      }).height(row, 26);
      for (const id of ids) putPair(b, row, id, a, c, overview, expanded[id]!);
      row++;
    }
  });
  const column = (letter: string) => `${letter}${start + 1}:${letter}${row - 1}`;
  b.name('PairNames', column('A'), 'Every two runs');
  for (const id of ids) {
    const { label } = BUDGET_RESULT[id];
    const [difference, u, verdict] = COLUMNS[id];
    b.name(`${id}PairDifferences`, column(difference), `Differences of ${label}`);
    b.name(`${id}PairU`, column(u), `Expanded uncertainties of the differences of ${label}`);
    b.name(`${id}PairVerdicts`, column(verdict), `Whether ${label} differs`);
  }
  return row;
}

function putPair(
  b: PlanBuilder,
  row: number,
  id: BudgetId,
  a: ComparedRun,
  c: ComparedRun,
  overview: Overview,
  expanded: ExpandedAt,
): void {
  const [difference, u, verdict] = COLUMNS[id].map((column) => `${column}${row}`) as [string, string, string];
  const format = id === 'Ratio' ? '0.000' : '#,##0.0';
  if (!a.components[id] || !c.components[id]) {
    b.put(difference, { role: 'derived', value: 'not measured' });
    b.put(u, { role: 'derived', value: '' });
    b.put(verdict, { role: 'check', value: '' });
    return;
  }
  const [x, y] = [overview.cell(id, a), overview.cell(id, c)];
  b.put(difference, { role: 'derived', formula: `=IF(COUNT(${x},${y})<2,"waiting",${x}-${y})`, format });
  b.put(u, { role: 'derived', formula: `=${expanded(a, c)}`, format });
  b.put(verdict, {
    role: 'check',
    formula: `=IF(COUNT(${difference},${u})<2,"waiting",IF(ABS(${difference})>${u},"${DIFFERENT}","${ALIKE}"))`,
  });
}
