import { SHIFT } from '../../metrology/linear';
import { BUDGET_RESULT, type BudgetId } from './budgetid';

/*
 * Uniformity and contrast are quotients that need not be near linear: their budgets end with a sentence that says
 * whether U, which takes them for straight lines, is to be trusted. Light outputs, their ratio and the luminance
 * are products and quotients of well-known numbers.
 */

/** Words that begin a sentence of trust. */
const GOOD = 'Near linear';
const ROUGH = 'U is rough';

/**
 * A formula without "=" for each budget that needs the sentence; empty until the result is there. A quotient whose
 * divisor has the relative standard uncertainty r moves its mean by r in units of its own u: so r is held against
 * the shift that counts as near linear.
 */
export function trustFormula(id: BudgetId): string | undefined {
  const { name } = BUDGET_RESULT[id];
  if (id === 'Uniformity') {
    return `IF(COUNT(${name}Plain)=0,"",IF(RivalPoints=0,"${GOOD}: the darkest and the brightest point stand clear of all others.","${ROUGH}: "&RivalPoints&" other "&IF(RivalPoints=1,"point lies","points lie")&" so near to the darkest or the brightest that scatter may decide which it is. "&"Scatter makes the figure look worse than it is; U holds the two points as found. Reading each point more often helps."))`;
  }
  if (id === 'Contrast' || id === 'Board') {
    return `IF(COUNT(${id}UPlain)=0,IF(LEFT(${name}Plain,8)="at least","No budget: black is too dark for this meter to be told from nothing. The contrast is a lower bound.",""),IF(${id}UPlain<=${SHIFT}*${name}Plain,"${GOOD}: black is known well enough for y ± U.","${ROUGH}: one standard uncertainty is "&INT(100*${id}UPlain/${name}Plain+0.5)&" % of the contrast, because black is so dark for this meter. "&"A quotient by so unsure a number reaches further up than down. The simulation gives a truer interval; a lower range of the meter helps."))`;
  }
  return undefined;
}
