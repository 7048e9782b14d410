import { describe, expect, it } from 'vitest';
import { Bits } from '../../src/metrology/bits';
import { DEFAULT_COVERAGE } from '../../src/metrology/coverage';
import { differences } from '../../src/metrology/differences';
import { divisor } from '../../src/metrology/distribution';
import { chiSquared } from '../../src/metrology/draws';
import { symmetricInterval } from '../../src/metrology/interval';
import { CLEAR, CLEAR_SQUARED } from '../../src/metrology/linear';
import { reportText } from '../../src/metrology/report';
import { REPEATABILITY_RELIABILITY } from '../../src/metrology/run/defaults';
import { squaredDeviations } from '../../src/metrology/sample';
import { normalCdf, normalQuantile, tQuantile } from '../../src/metrology/student';
import { got } from './outcome';

/* Where a rule begins and where it ends, and constants held to their sources. */

/** At the level of two standard deviations of a normal distribution, k = 2 where nothing limits it. */
const K2 = { ...DEFAULT_COVERAGE, level: 2 * normalCdf(2) - 1 };

describe('the difference of two runs (GUM eq. 16)', () => {
  const of = (shared: readonly [number, number, number], meters = [1, 2], images = [1, 2]) =>
    got(
      differences(
        {
          parts: [[3, 4]],
          dof: [[Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]],
          meters,
          images,
          shared: [shared],
        },
        K2,
      ),
    )[0]![1]!;

  it('of nothing shared is the root of the sum of squares, of all shared the difference (3, 4, 5)', () => {
    expect(of([0, 0, 0])).toBeCloseTo(2 * 5, 12);
    expect(of([0, 0, 1])).toBeCloseTo(2 * 1, 12);
    expect(of([1, 0, 0], [1, 1])).toBeCloseTo(2 * 1, 12);
    expect(of([0, 1, 0], [1, 2], [7, 7])).toBeCloseTo(2 * 1, 12);
  });
  it('of half shared lies between: ½·1² + ½·5² = 13', () => {
    expect(of([0, 0, 0.5])).toBeCloseTo(2 * Math.sqrt(13), 12);
    // Shared by one meter and always, each in half: what is left apart is a quarter. ¾·1 + ¼·25 = 7.
    expect(of([0.5, 0, 0.5], [1, 1])).toBeCloseTo(2 * Math.sqrt(7), 12);
  });
});

describe('constants', () => {
  it('a stated U of k = 2 is divided by 2, by 1 where it is a standard uncertainty (GUM 4.3.3)', () => {
    expect([divisor('normal', 2), divisor('normal')]).toEqual([2, 1]);
  });
  it('a guess good to a quarter of itself has 8 degrees of freedom (GUM G.4.2, ν ≈ ½ · (Δu/u)⁻²)', () => {
    expect(0.5 / REPEATABILITY_RELIABILITY ** 2).toBe(8);
  });
  it('readings stand clear at 2.5 standard uncertainties of their difference, √2 of one', () => {
    expect(CLEAR).toBe(2.5);
    expect(CLEAR_SQUARED).toBeCloseTo((CLEAR * Math.SQRT2) ** 2, 12);
  });
  it('t of a million degrees of freedom is within 10⁻⁵ of the normal one, and without a step there (Abramowitz and Stegun 26.7.5)', () => {
    const z = normalQuantile(0.97725);
    const expected = (dof: number) => z + (z ** 3 + z) / (4 * dof);
    for (const dof of [999_999, 1_000_000, 1_000_001])
      expect(tQuantile(0.97725, dof)).toBeCloseTo(expected(dof), 11);
  });
});

describe('reports', () => {
  it('seven digits before the point are written out, eight in powers of ten (common practice)', () => {
    expect(reportText(9_876_543, 120_000, 'lm')).toBe('(9880000 ± 120000) lm');
    expect(reportText(12_345_678, 120_000, 'lm')).toBe('(1.235 ± 0.012) × 10⁷ lm');
  });
});

describe('trials', () => {
  it('the symmetric interval of 1 to 100 at 95 % leaves out as many below as above (JCGM 101, 7.7.2)', () => {
    // q = 95, r = (100 − 95 + 1) ÷ 2 = 3: the third to the ninety-eighth.
    const sorted = Float64Array.from({ length: 100 }, (_, i) => i + 1);
    expect(symmetricInterval(sorted, 0.95)).toEqual({ low: 3, high: 98 });
    // q = 94, r = 3.5 cut to 3.
    expect(symmetricInterval(sorted, 0.94)).toEqual({ low: 3, high: 97 });
  });
  it('one value has no deviations', () => {
    expect(squaredDeviations([7])).toBe(0);
    expect(squaredDeviations([1e9 + 1, 1e9 + 2, 1e9 + 3])).toBe(2);
  });
  it.each([0.5, 1, 3, 8, 30])('χ² of %s has its mean ν and its variance 2ν (any handbook)', (dof) => {
    const bits = new Bits(5);
    const n = 200_000;
    let [sum, squares] = [0, 0];
    for (let i = 0; i < n; i++) {
      const x = chiSquared(bits, dof);
      sum += x;
      squares += x * x;
    }
    const mean = sum / n;
    // Five standard deviations of either estimate; the seed is fixed.
    expect(Math.abs(mean - dof)).toBeLessThan(5 * Math.sqrt((2 * dof) / n));
    const spread = Math.sqrt((12 * dof * (dof + 4) * 4) / n);
    expect(Math.abs(squares / n - mean ** 2 - 2 * dof)).toBeLessThan(5 * spread);
  });
});
