import stdFQuantile from '@stdlib/stats-base-dists-f-quantile';

/** The F that the ratio of two variances with these degrees of freedom does not exceed with probability `p`. */
export function fQuantile(p: number, numerator: number, denominator: number): number {
  return stdFQuantile(p, numerator, denominator);
}
