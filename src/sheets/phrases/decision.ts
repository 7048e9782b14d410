import { DECISION_RULES } from '../../metrology/words';

/*
 * The decision on a value against a lower limit, without "=", as `verdictAbove` and `RULES` of the metrology room say
 * it (ILAC-G8:09/2019, 4.2.1 to 4.2.3, w = U), with the same margin of 1E-9 of T + U on every limit. The cells hold
 * numbers: whoever asks has counted them. Limits are not negative.
 */

/** The value is not below the limit, or below T ± U; what lies on it in decimals lies on it. */
const reaches = (y: string, limit: string, margin: string) => `${y}>=${limit}-0.000000001*${margin}`;
const both = (limit: string, U: string) => `(${limit}+${U})`;

/** By the value alone, without a guard band. */
export const decidedByValue = (y: string, limit: string): string =>
  `IF(${reaches(y, limit, limit)},"pass","fail")`;

/** Four outcomes. */
export const decidedInFour = (y: string, limit: string, U: string): string =>
  guarded(y, limit, U, between(y, limit, U));

/** By the rule that a cell names. */
export function decidedBy(rule: string, y: string, limit: string, U: string): string {
  const [, twoOutcomes, noGuard] = DECISION_RULES;
  const otherwise = `IF(${rule}="${twoOutcomes}","fail",${between(y, limit, U)})`;
  return `IF(${rule}="${noGuard}",${decidedByValue(y, limit)},${guarded(y, limit, U, otherwise)})`;
}

const guarded = (y: string, limit: string, U: string, otherwise: string) =>
  `IF(${reaches(y, `${limit}+${U}`, both(limit, U))},"pass",${otherwise})`;

const between = (y: string, limit: string, U: string) =>
  `IF(${reaches(y, limit, both(limit, U))},"conditional pass",IF(${reaches(y, `${limit}-${U}`, both(limit, U))},"conditional fail","fail"))`;
