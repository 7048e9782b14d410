import { good, type Outcome } from '../photometry/outcome';
import { notAtLeastZero, notDegreesOfFreedom, notFinite, unless } from './check';
import { type Limits, limitProblems } from './limits';
import { tCdf } from './student';

/** A measured value with its standard uncertainty; `dof` infinite or left out for a normal distribution. */
export interface Measured {
  readonly value: number;
  readonly u: number;
  readonly dof?: number;
}

/**
 * Probability that the true value lies within the limits (JCGM 106, clause 7, from memory):
 * Φ((T_U − y) ÷ u) − Φ((T_L − y) ÷ u), with Student's t in place of Φ for a finite ν. With u = 0 the value is
 * the truth and the answer is 0 or 1; a value on the limit conforms.
 */
export function conformanceProbability(measured: Measured, limits: Limits): Outcome<number> {
  const { value, u, dof = Number.POSITIVE_INFINITY } = measured;
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = limits;
  const problems = [
    ...notFinite(value, 'measured value'),
    ...notAtLeastZero(u, 'standard uncertainty'),
    ...notDegreesOfFreedom(dof, 'degrees of freedom'),
    ...limitProblems(limits),
  ];
  if (problems.length === 0 && u === 0) return good(lower <= value && value <= upper ? 1 : 0);
  return unless(problems, () => {
    const [high, low] = [(upper - value) / u, (lower - value) / u];
    // Differences of two upper tails would cancel: where both limits lie above the value, mirror them.
    return low > 0 ? tCdf(-low, dof) - tCdf(-high, dof) : tCdf(high, dof) - tCdf(low, dof);
  });
}
