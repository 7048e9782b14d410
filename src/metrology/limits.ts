import { invalid, missing, type Problem } from '../photometry/outcome';
import { notFinite } from './check';

/** What is tolerated: at least `lower`, at most `upper`, or both. */
export interface Limits {
  readonly lower?: number;
  readonly upper?: number;
}

/** Problems of the limits: none given, not a number, or crossed. */
export function limitProblems({ lower, upper }: Limits): Problem[] {
  if (lower === undefined && upper === undefined) {
    return [missing('limits', 'A decision needs a lower or an upper limit, or both.')];
  }
  const problems = [
    ...(lower === undefined ? [] : notFinite(lower, 'lower limit')),
    ...(upper === undefined ? [] : notFinite(upper, 'upper limit')),
  ];
  if (problems.length === 0 && lower !== undefined && upper !== undefined && lower >= upper) {
    return [
      invalid(
        'out-of-bounds',
        'limits',
        `The lower limit must lie below the upper limit; they are ${lower} and ${upper}.`,
      ),
    ];
  }
  return problems;
}
