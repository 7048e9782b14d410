import { bad, good, invalid, type Outcome } from '../../photometry/outcome';
import type { LinkedSheet } from '../link';
import { BUDGET_IDS, type BudgetId } from '../run/budgetid';

/** A run sheet as a comparison sees it: where its results stand, and the rows of its budgets. */
export interface ComparedRun extends LinkedSheet {
  /** Labels of each budget's rows; a budget that the run has not is missing. */
  readonly components: Readonly<Partial<Record<BudgetId, readonly string[]>>>;
  /** Runs with equal numbers were read with one meter, or from one image; 1 to 12. */
  readonly meter: number;
  readonly image: number;
  readonly price?: number;
}

export const LEAST_RUNS = 2;
export const MOST_RUNS = 12;

/** Runs that have a budget for a result: white only has none for colour. */
export function withBudget(runs: readonly ComparedRun[], id: BudgetId): readonly ComparedRun[] {
  return runs.filter(({ components }) => components[id] !== undefined);
}

/** What stands in the way of comparing these runs: how many, the same one twice, budgets of different rows. */
export function comparable(runs: readonly ComparedRun[]): Outcome<true> {
  if (runs.length < LEAST_RUNS || runs.length > MOST_RUNS) {
    return bad(
      invalid(
        'out-of-bounds',
        'runs',
        `A comparison takes ${LEAST_RUNS} to ${MOST_RUNS} runs; there are ${runs.length}.`,
      ),
    );
  }
  const twice = runs.find(({ sheet }, i) => runs.findIndex((other) => other.sheet === sheet) < i);
  if (twice) return bad(invalid('choice', 'runs', `The run “${twice.sheet}” was chosen twice.`));
  const unlike = BUDGET_IDS.flatMap((id) => {
    const [first, ...others] = withBudget(runs, id);
    return others
      .filter((run) => run.components[id]!.join('|') !== first!.components[id]!.join('|'))
      .map((run) =>
        invalid(
          'shape',
          'runs',
          `“${first!.sheet}” and “${run.sheet}” have budgets with different rows: they were built by different versions. Build one of them anew.`,
        ),
      );
  });
  return unlike.length > 0 ? bad(...unlike) : good(true);
}
