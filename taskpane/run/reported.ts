import { reportText } from '../../src/metrology/report';
import { BUDGET_RESULT, type BudgetId } from '../../src/sheets/run/budgetid';

/** A result, or a difference of two, with its U as people report it: `(2230 ± 120) lm`, `(80.5 ± 1.2) %`. */
export function reported(id: BudgetId, value: number, expanded: number): string {
  const { unit, isPercent } = BUDGET_RESULT[id];
  return isPercent ? reportText(100 * value, 100 * expanded, '%') : reportText(value, expanded, unit);
}
