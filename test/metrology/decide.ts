import { type Decision, FOUR_OUTCOMES, judge, type Rule } from '../../src/metrology/decision';
import type { Limits } from '../../src/metrology/limits';
import { conformanceProbability } from '../../src/metrology/probability';
import { chain, good, type Outcome } from '../../src/photometry/outcome';

/** A decision with the probability that the true value conforms, for which U alone does not suffice. */
export function decide(
  measured: { readonly value: number; readonly u: number; readonly expanded: number; readonly dof?: number },
  limits: Limits,
  rule: Rule = FOUR_OUTCOMES,
): Outcome<Decision & { readonly probability: number }> {
  return chain(judge(measured, limits, rule), (judged) =>
    chain(conformanceProbability(measured, limits), (probability) => good({ ...judged, probability })),
  );
}
