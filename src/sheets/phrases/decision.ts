import { DECISION_RULES } from '../../metrology/words';

/*
 * The decision on a value against a lower limit, without "=", as `verdictAbove` and `RULES` of the metrology room say
 * it (ILAC-G8:09/2019, 4.2.1 to 4.2.3, w = U). The cells hold numbers: whoever asks has counted them.
 */

/** By the value alone, without a guard band. */
export const decidedByValue = (y: string, limit: string): string => `IF(${y}>=${limit},"pass","fail")`;

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
  `IF(${y}>=${limit}+${U},"pass",${otherwise})`;

const between = (y: string, limit: string, U: string) =>
  `IF(${y}>=${limit},"conditional pass",IF(${y}>=${limit}-${U},"conditional fail","fail"))`;
