import { SHIFT } from '../../metrology/linear';
import { METER_STATEMENTS, RULES } from '../../metrology/words';
import { BUDGET_RESULT, type BudgetId } from './budgetid';

/*
 * Uniformity and contrast are quotients that need not be near linear: their budgets end with a sentence that says
 * whether U, which takes them for straight lines, is to be trusted. Light outputs, their ratio and the luminance
 * are products and quotients of well-known numbers; of the light outputs is said whether one bound rules the sum.
 */

/** What a budget is ruled by: cells of its shares and components, the meter's percentage and what that is. */
export interface RuledBy {
  readonly shares: string;
  readonly components: string;
  readonly ofReading: string;
  readonly statement: string;
}

/** The cause that rules a sum, as a bound; a condition without "=". A scatter is no bound, nor is a certificate's U. */
export function isRuled({ shares, components, ofReading, statement }: RuledBy): string {
  const most = largest(shares, components);
  const isBound = `OR(LEFT(${most},8)<>"Meter, ±",COUNT(${ofReading})=0,${statement}<>"${METER_STATEMENTS[1]}")`;
  return `AND(MAX(${shares})>=${RULES},LEFT(${most},13)<>"Repeatability",${isBound})`;
}

export const largest = (shares: string, components: string) =>
  `INDEX(${components},MATCH(MAX(${shares}),${shares},0))`;

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
  if (id === 'White' || id === 'Colour') {
    const [shares, components] = [`${id}Shares`, `${id}Components`];
    const ruled = isRuled({ shares, components, ofReading: 'MeterOfReading', statement: 'MeterStatement' });
    return `IF(COUNT(${shares})=0,"",IF(${ruled},"One bound, “"&${largest(shares, components)}&"”, makes "&INT(100*MAX(${shares})+0.5)&" % of the variance: the sum is no normal distribution, and U is up to 17 % too wide. The simulation tells the interval as it is.","No single bound makes three quarters of the variance: U with the k below may stand."))`;
  }
  if (id === 'Uniformity') {
    return `IF(COUNT(${name}Plain)=0,"",IF(RivalPoints=0,"${GOOD}: the darkest and the brightest point stand clear of all others.","${ROUGH}: "&RivalPoints&" other "&IF(RivalPoints=1,"point lies","points lie")&" so near to the darkest or the brightest that scatter, or how the meter was held, may decide which it is. "&"Both make the figure look worse than it is; U holds the two points as found. Reading each point more often helps against scatter, not against placing."))`;
  }
  if (id === 'Contrast' || id === 'Board') {
    return `IF(COUNT(${id}UPlain)=0,IF(LEFT(${name}Plain,8)="at least","No budget: black is too dark for this meter to be told from nothing. The contrast is a lower bound.",""),IF(${id}UPlain<=${SHIFT}*${name}Plain,"${GOOD}: black is known well enough for y ± U.","${ROUGH}: one standard uncertainty is "&INT(100*${id}UPlain/${name}Plain+0.5)&" % of the contrast, because black is so dark for this meter. "&"A quotient by so unsure a number reaches further up than down. The simulation gives a truer interval; a lower range of the meter helps."))`;
  }
  return undefined;
}
