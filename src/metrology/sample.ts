import { mean } from '../photometry/reading';

/** Statistics of repeated readings (GUM 4.2). All sums run over deviations from the mean, so large offsets do no harm. */

/** Sum of squared deviations from the mean. */
export function squaredDeviations(values: readonly number[]): number {
  const middle = mean(values);
  return values.reduce((sum, value) => sum + (value - middle) ** 2, 0);
}

/** Sample variance with n − 1 (GUM eq. 4); NaN for fewer than two values. */
export function sampleVariance(values: readonly number[]): number {
  return values.length < 2 ? Number.NaN : squaredDeviations(values) / (values.length - 1);
}

/** Sample standard deviation with n − 1; NaN for fewer than two values. */
export function sampleSd(values: readonly number[]): number {
  return Math.sqrt(sampleVariance(values));
}

/** Standard uncertainty of the mean, s ÷ √n (GUM eq. 5), with ν = n − 1; NaN for fewer than two values. */
export function meanUncertainty(values: readonly number[]): number {
  return sampleSd(values) / Math.sqrt(values.length);
}
