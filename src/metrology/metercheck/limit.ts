import { bad, chain, good, invalid, type Outcome } from '../../photometry/outcome';
import { notAboveZero, notAtLeastZero } from '../check';
import { expand } from '../coverage';
import { effectiveDof } from '../dof';

/** How far a meter's readings are off what they should be, as parts of these. */
export interface ErrorFound {
  /** Mean of found ÷ expected − 1. */
  readonly mean: number;
  readonly u: number;
  readonly dof: number;
  /** At 95.45 %. */
  readonly expanded: number;
  /** What the error is not beyond: |mean| + U. It is not corrected for, so that all of it counts. */
  readonly limit: number;
}

/**
 * The error of a meter from rounds of readings that should be equal: u² = s² ÷ n + half² ÷ 3, with ν by
 * Welch–Satterthwaite (JCGM 100:2008, 4.2.3, 4.3.7 and G.4); an error that is known and not corrected for widens the
 * doubt by its size (F.2.4.5).
 * @param found as read, one a round, above 0
 * @param expected what they should be by the other reading of the round, in the same unit
 * @param half rectangular half-width common to all rounds, as a part of what is expected
 */
export function errorFound(
  found: readonly number[],
  expected: readonly number[],
  half: number,
): Outcome<ErrorFound> {
  if (found.length !== expected.length || found.length < 2) {
    return bad(
      invalid(
        'shape',
        'rounds',
        `Both columns must have the same number of rounds, at least two; they have ${found.length} and ${expected.length}.`,
      ),
    );
  }
  const problems = [
    ...found.flatMap((value, i) => notAboveZero(value, `value found in row ${i + 1}`)),
    ...expected.flatMap((value, i) => notAboveZero(value, `value expected in row ${i + 1}`)),
    ...notAtLeastZero(half, 'half-width'),
  ];
  if (problems.length > 0) return { ok: false, problems };
  const n = found.length;
  const errors = found.map((value, i) => value / expected[i]! - 1);
  const mean = errors.reduce((sum, error) => sum + error, 0) / n;
  const variance = errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / (n - 1) / n;
  const u = Math.sqrt(variance + half ** 2 / 3);
  const dof = effectiveDof([
    { u: Math.sqrt(variance), dof: n - 1 },
    { u: half / Math.sqrt(3), dof: Number.POSITIVE_INFINITY },
  ]);
  return chain(expand(u, dof), ({ expanded }) =>
    good({ mean, u, dof, expanded, limit: Math.abs(mean) + expanded }),
  );
}
