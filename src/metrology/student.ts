/**
 * Normal and Student's t distributions; the one place that names the library behind them. Its series are its
 * own matter; the project's tests hold them against printed tables.
 */
import stdNormalCdf from '@stdlib/stats-base-dists-normal-cdf';
import stdNormalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import stdTCdf from '@stdlib/stats-base-dists-t-cdf';
import stdTQuantile from '@stdlib/stats-base-dists-t-quantile';

/**
 * From here on Student's t is the normal distribution to double precision: the quantiles differ by about
 * z³/(4ν) (first term of the Cornish-Fisher expansion).
 */
const PRACTICALLY_INFINITE = 1e12;

/** Probability that a standard normal variable is at most `z`. */
export function normalCdf(z: number): number {
  return stdNormalCdf(z, 0, 1);
}

/** The `z` that a standard normal variable does not exceed with probability `p`. */
export function normalQuantile(p: number): number {
  return stdNormalQuantile(p, 0, 1);
}

/** Probability that Student's t with `dof` degrees of freedom (any real number above 0, or infinite) is at most `t`. */
export function tCdf(t: number, dof: number): number {
  return dof >= PRACTICALLY_INFINITE ? normalCdf(t) : stdTCdf(t, dof);
}

/** From here on the library loses the quantiles near the median, while three terms of the series are exact. */
const SERIES_FROM = 1e6;

/** The `t` that Student's t with `dof` degrees of freedom does not exceed with probability `p`. */
export function tQuantile(p: number, dof: number): number {
  return dof >= SERIES_FROM ? series(normalQuantile(p), dof) : stdTQuantile(p, dof);
}

/** Abramowitz and Stegun 26.7.5: t = z + (z³ + z) ÷ 4ν + (5z⁵ + 16z³ + 3z) ÷ 96ν² + …; exact for infinite ν. */
function series(z: number, dof: number): number {
  return z + (z ** 3 + z) / 4 / dof + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96 / dof ** 2;
}
