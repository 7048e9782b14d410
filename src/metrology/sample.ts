import { mean } from '../photometry/reading';

/** Sum of squared deviations from the mean (GUM 4.2), so that a large offset does no harm. */
export function squaredDeviations(values: readonly number[]): number {
  const middle = mean(values);
  return values.reduce((sum, value) => sum + (value - middle) ** 2, 0);
}
