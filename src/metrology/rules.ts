import { FOUR_OUTCOMES, GUARDED, type Rule, SIMPLE } from './decision';

/**
 * Decision rules by the words people choose them with; the first is what a run is decided by unless said
 * otherwise. No commas: spreadsheets keep the choices of a list as one text with commas between them.
 */
const RULES = {
  'guard band U: four outcomes': FOUR_OUTCOMES,
  'guard band U: pass or fail': GUARDED,
  'no guard band': SIMPLE,
} as const satisfies Readonly<Record<string, Rule>>;

export type DecisionRule = keyof typeof RULES;
export const DECISION_RULES = Object.keys(RULES) as [DecisionRule, ...DecisionRule[]];

export function ruleOf(words: DecisionRule): Rule {
  return RULES[words];
}
