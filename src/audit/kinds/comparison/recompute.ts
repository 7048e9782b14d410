import { differences } from '../../../metrology/differences';
import { bad, chain, good, missing, type Outcome } from '../../../photometry/outcome';
import type { CellName } from '../../../sheets/names/all';
import type { Plan } from '../../../sheets/plan';
import { RUN_VERSION } from '../../../sheets/run';
import { BUDGET_IDS, BUDGET_RESULT, type BudgetId } from '../../../sheets/run/budgetid';
import type { SheetView } from '../../view';
import { cellNamed, cellsNamed, numberAt } from '../cells';
import type { Recomputed } from '../kind';
import type { LinkedRun } from '../linkedrun';
import { runRecomputed } from '../run';
import { budgetParts } from './parts';

/** Rows of the overview and the result of a run that each shows. */
const OVERVIEW = BUDGET_IDS.flatMap((id) => [
  [`${id}Values` as const, BUDGET_RESULT[id].name] as const,
  [`${id}U` as const, `${id}Expanded` as const] as const,
]);

/** Everything a comparison says, from the readings of its runs and from what is shared by its own cells. */
export function recomputeComparison(
  view: SheetView,
  plan: Plan,
  runs: readonly LinkedRun[],
): Map<string, Recomputed> {
  const found = new Map<string, Recomputed>();
  const result = (run: LinkedRun, name: CellName) => runRecomputed(run.view).get(name);
  for (const [row, name] of OVERVIEW) {
    cellsNamed(plan, row).forEach((at, i) => {
      const value = result(runs[i]!, name);
      if (value && plan.cells[at]!.formula !== undefined) found.set(at, value);
    });
  }
  cellsNamed(plan, 'PricesPerLumen').forEach((at, i) => {
    const price = numberAt(view, cellsNamed(plan, 'Prices')[i]!);
    if (price === undefined) return;
    const white = result(runs[i]!, 'WhiteLightOutput');
    if (white)
      found.set(
        at,
        chain(white, (lumens) => good(price / Number(lumens))),
      );
  });
  for (const id of BUDGET_IDS) {
    if (cellsNamed(plan, `${id}PairU`).length === 0) continue;
    for (const [at, value] of recomputePairs(view, plan, runs, id)) found.set(at, value);
  }
  return found;
}

const PAIR_ENDS = ['DifferenceExpanded', 'PairDifferences', 'PairU', 'PairVerdicts'] as const;

/** Difference, its U and the verdict of every two runs; and the table of U. */
function recomputePairs(
  view: SheetView,
  plan: Plan,
  runs: readonly LinkedRun[],
  id: BudgetId,
): [string, Recomputed][] {
  const those = runs.filter(({ components }) => components[id] !== undefined);
  // Budgets of earlier layouts have other causes than today's model.
  if (those.some(({ view: { identity } }) => identity?.version !== RUN_VERSION)) return [];
  const table = expandedOf(view, plan, runs, those, id);
  const cells = (end: (typeof PAIR_ENDS)[number]) => cellsNamed(plan, `${id}${end}`);
  const [square, differing, us, verdicts] = PAIR_ENDS.map(cells) as [string[], string[], string[], string[]];
  const found: [string, Recomputed][] = [];
  let pair = -1;
  runs.forEach((a, i) => {
    for (const b of runs.slice(i + 1)) {
      pair++;
      const [x, y] = [those.indexOf(a), those.indexOf(b)];
      if (x < 0 || y < 0) continue;
      const values = [a, b].map((run) => runRecomputed(run.view).get(BUDGET_RESULT[id].name)!);
      const difference = chain(values[0]!, (p) =>
        chain(values[1]!, (q) =>
          typeof p === 'number' && typeof q === 'number'
            ? good(p - q)
            : bad(missing('difference', 'One of the two is a bound.')),
        ),
      );
      const expanded = chain(table, (all) => good(all[x]![y]!));
      const verdict = chain(difference, (d) =>
        chain(expanded, (u) => good(Math.abs(d) > u ? 'different' : 'not distinguishable')),
      );
      found.push([differing[pair]!, difference], [us[pair]!, expanded], [verdicts[pair]!, verdict]);
      found.push([square[x * those.length + y]!, expanded], [square[y * those.length + x]!, expanded]);
    }
  });
  return found;
}

/** Expanded uncertainties of the differences of those runs that have this result. */
function expandedOf(
  view: SheetView,
  plan: Plan,
  runs: readonly LinkedRun[],
  those: readonly LinkedRun[],
  id: BudgetId,
): Outcome<number[][]> {
  const labels = those[0]?.components[id] ?? [];
  const columns = those.map((run) => budgetParts(run.view, id, labels));
  const level = numberAt(view, cellNamed(plan, 'Level'));
  if (columns.some((column) => column === undefined) || level === undefined) {
    return bad(missing('budgets', 'A run is not complete.'));
  }
  const codes = (name: CellName) => {
    const cells = cellsNamed(plan, name);
    return those.map((run) => numberAt(view, cells[runs.indexOf(run)]!) ?? Number.NaN);
  };
  const flags = cellsNamed(plan, `${id}Shared`).map((at) => numberAt(view, at) ?? 0);
  const rows = labels.map((_, k) => columns.map((column) => column![k]!));
  return differences(
    {
      parts: rows.map((row) => row.map(({ part }) => part)),
      dof: rows.map((row) => row.map(({ dof }) => dof)),
      meters: codes('MeterCodes'),
      images: codes('ImageCodes'),
      shared: labels.map((_, k) => flags.slice(3 * k, 3 * k + 3)),
    },
    { level, rounding: 'truncate' },
  );
}
