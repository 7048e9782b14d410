import { describe, expect, it } from 'vitest';
import { Bits } from '../../src/metrology/bits';
import { chiSquared, normal, signed, triangular, unit, uShaped } from '../../src/metrology/draws';
import { normalCdf } from '../../src/metrology/student';

const N = 400_000;
function sorted(draw: (bits: Bits) => number, seed: number): Float64Array {
  const bits = new Bits(seed);
  return Float64Array.from({ length: N }, () => draw(bits)).sort();
}

/**
 * Largest distance between the draws' own distribution and the true one. Kolmogorov: above 1.95 ÷ √n in one of
 * 1000 samples (any textbook of statistics); the seeds are fixed, so the outcome is as well.
 */
function distance(values: Float64Array, cdf: (x: number) => number): number {
  let most = 0;
  values.forEach((x, i) => {
    const p = cdf(x);
    most = Math.max(most, Math.abs(p - i / N), Math.abs(p - (i + 1) / N));
  });
  return most;
}

describe('shapes of the draws (Kolmogorov-Smirnov, 400 000 draws)', () => {
  const limit = 1.95 / Math.sqrt(N);
  const clamp = (x: number) => Math.min(1, Math.max(0, x));
  it.each([
    ['uniform −1 to 1', signed, (x: number) => clamp((x + 1) / 2)],
    ['uniform 0 to 1', unit, clamp],
    ['triangular', triangular, (x: number) => (x < 0 ? (1 + x) ** 2 / 2 : 1 - (1 - x) ** 2 / 2)],
    ['arcsine', uShaped, (x: number) => 0.5 + Math.asin(x) / Math.PI],
    ['normal', normal, normalCdf],
    ['χ², ν = 2', (bits: Bits) => chiSquared(bits, 2), (x: number) => 1 - Math.exp(-x / 2)],
    ['χ², ν = 4', (bits: Bits) => chiSquared(bits, 4), (x: number) => 1 - Math.exp(-x / 2) * (1 + x / 2)],
    ['χ², ν = 1', (bits: Bits) => chiSquared(bits, 1), (x: number) => 2 * normalCdf(Math.sqrt(x)) - 1],
  ] as const)('%s', (_, draw, cdf) => expect(distance(sorted(draw, 11), cdf)).toBeLessThan(limit));

  it('normal tails hold as many draws as they should', () => {
    const values = sorted(normal, 12);
    for (const z of [2, 3, 3.442619855899, 4]) {
      const beyond = values.reduce((count, x) => count + (Math.abs(x) > z ? 1 : 0), 0);
      const expected = 2 * normalCdf(-z) * N;
      expect(Math.abs(beyond - expected)).toBeLessThan(4 * Math.sqrt(expected));
    }
  });
});
