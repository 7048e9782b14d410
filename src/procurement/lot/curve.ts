import { bad, good, type Outcome } from '../../photometry/outcome';
import { acceptProbability, type LotRule, ruleProblems } from './probability';

/** A point of the operating characteristic of a plan for one lot. */
export interface CurvePoint {
  /** Nonconforming units in the lot, and the same as a part of it. */
  readonly nonconforming: number;
  readonly fraction: number;
  /** Probability that the lot is accepted. */
  readonly probability: number;
}

/** Risks that plans are commonly judged by: 5 % of rejecting a good lot, 10 % of accepting a bad one. */
export const PRODUCER_RISK = 0.05;
export const CONSUMER_RISK = 0.1;

export interface RiskPoints {
  /** The worst lot that is still accepted with a probability of at least 1 − producer's risk. */
  readonly producer: CurvePoint;
  /** The best lot that is accepted with a probability of at most the consumer's risk. */
  readonly consumer: CurvePoint;
}

/** The two points a plan is known by. Whole units: a small lot may miss the risks by far, so both are told exactly. */
export function riskPoints(
  rule: LotRule,
  producerRisk = PRODUCER_RISK,
  consumerRisk = CONSUMER_RISK,
): Outcome<RiskPoints> {
  const problems = ruleProblems(rule);
  if (problems.length > 0) return bad(...problems);
  const firstAtMost = (probability: number) =>
    firstWhere(rule.lotSize, (D) => at(rule, D).probability <= probability);
  const consumer = at(rule, firstAtMost(consumerRisk));
  const firstBelow = firstWhere(rule.lotSize, (D) => at(rule, D).probability < 1 - producerRisk);
  return good({ producer: at(rule, firstBelow - 1), consumer });
}

/**
 * The curve from a perfect lot to one that is hardly ever accepted (below 0.1 %), every unit of it where there
 * are at most `most` points and evenly thinned where there are more.
 */
export function operatingCurve(rule: LotRule, most = 60): Outcome<CurvePoint[]> {
  const problems = ruleProblems(rule);
  if (problems.length > 0) return bad(...problems);
  const last = firstWhere(rule.lotSize, (D) => at(rule, D).probability < 0.001);
  const step = Math.max(1, Math.ceil(last / Math.max(1, most - 1)));
  const points: CurvePoint[] = [];
  for (let D = 0; D < last; D += step) points.push(at(rule, D));
  return good([...points, at(rule, last)]);
}

/** A point of a rule that is known to be sound. */
function at(rule: LotRule, nonconforming: number): CurvePoint {
  const probability = acceptProbability(rule, nonconforming);
  return {
    nonconforming,
    fraction: nonconforming / rule.lotSize,
    probability: probability.ok ? probability.value : Number.NaN,
  };
}

/** The least whole number up to `top` from which on `holds`; `top`, where all are nonconforming, always holds. */
function firstWhere(top: number, holds: (D: number) => boolean): number {
  let [low, high] = [0, top];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
