import { bad, good, invalid, type Outcome } from '../photometry/outcome';
import { notFinite } from './check';
import { squaredDeviations } from './sample';

/** A standard deviation of one reading, estimated from several groups of repeats together. */
export interface Pooled {
  readonly sd: number;
  /** ν = Σ(nᵢ − 1). */
  readonly dof: number;
}

/**
 * Pooled standard deviation: √(Σ squared deviations within groups ÷ Σ(nᵢ − 1)) (GUM 4.2.4). A group of one
 * reading adds nothing; if no group has two, the spread is unknown (ν = 0) and that is the answer.
 */
export function pooledSd(groups: readonly (readonly number[])[]): Outcome<Pooled> {
  const problems = groups.flatMap((group, i) =>
    group.flatMap((value, k) => notFinite(value, `repeat ${k + 1} of group ${i + 1}`)),
  );
  if (problems.length > 0) return bad(...problems);
  const dof = groups.reduce((sum, group) => sum + Math.max(0, group.length - 1), 0);
  if (dof === 0) {
    return bad(
      invalid(
        'not-defined',
        'repeats',
        'Repeatability is not defined: no point has two or more readings (ν = 0). Read at least one point twice.',
      ),
    );
  }
  const sum = groups.reduce((all, group) => all + (group.length > 1 ? squaredDeviations(group) : 0), 0);
  return good({ sd: Math.sqrt(sum / dof), dof });
}
