/**
 * What is believed about a quantity known only by a bound or a statement (type B, GUM 4.3; EA-4/02 for the
 * U-shaped one). `normal` takes an expanded uncertainty and its coverage factor, or a standard uncertainty
 * with 1.
 */
export type Distribution = 'rectangular' | 'triangular' | 'normal' | 'u-shaped';
export const DISTRIBUTIONS: readonly Distribution[] = ['rectangular', 'triangular', 'normal', 'u-shaped'];

const DIVISORS = {
  // GUM 4.3.7, eq. 7.
  rectangular: Math.sqrt(3),
  // GUM 4.3.9, eq. 9b with β = 0.
  triangular: Math.sqrt(6),
  // Arcsine density of a sinusoid of this amplitude (JCGM 101, 6.4.6).
  'u-shaped': Math.SQRT2,
} as const;

/** Half-width ÷ divisor = standard uncertainty. For `normal` the divisor is the coverage factor. */
export function divisor(distribution: Distribution, coverageFactor = 1): number {
  return distribution === 'normal' ? coverageFactor : DIVISORS[distribution];
}
