import type { RunSetup } from '../runsetup';

/** Results of a run that have an uncertainty budget; the stem of the budget's names. */
export type BudgetId = 'White' | 'Colour' | 'Ratio';

/** The result a budget is for. */
export const BUDGET_RESULT: Readonly<Record<BudgetId, { name: string; label: string; unit: string }>> = {
  White: { name: 'WhiteLightOutput', label: 'white light output', unit: 'lm' },
  Colour: { name: 'ColourLightOutput', label: 'colour light output', unit: 'lm' },
  Ratio: { name: 'ColourToWhite', label: 'colour to white ratio', unit: '' },
};

/** The budgets a set-up leads to. */
export function budgetIds({ colour }: Pick<RunSetup, 'colour'>): readonly BudgetId[] {
  return colour === 'none' ? ['White'] : ['White', 'Colour', 'Ratio'];
}
