import { FOUR_OUTCOMES, GUARDED, type Rule, SIMPLE } from './decision';
import type { DecisionRule } from './words';

const RULES: Readonly<Record<DecisionRule, Rule>> = {
  'guard band U: four outcomes': FOUR_OUTCOMES,
  'guard band U: pass or fail': GUARDED,
  'no guard band': SIMPLE,
};

/** The rule behind the words. */
export function ruleOf(words: DecisionRule): Rule {
  return RULES[words];
}

export { DECISION_RULES, type DecisionRule } from './words';
