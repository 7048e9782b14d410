import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../../src/metrology/coverage';
import { normalCdf, normalQuantile, tCdf, tQuantile } from '../../src/metrology/student';
import { TN1297_LEVELS, TN1297_LOOSE, TN1297_TABLE_B1 } from '../references/tn1297';
import { got } from './outcome';

describe('coverage factors are those of NIST TN 1297, table B.1', () => {
  const cells = TN1297_TABLE_B1.flatMap(([dof, ...row]) =>
    row.map((printed, i) => ({ dof: dof ?? Number.POSITIVE_INFINITY, level: TN1297_LEVELS[i]!, printed })),
  );
  it.each(cells)('t at $level, ν = $dof is $printed', ({ dof, level, printed }) => {
    const loose = TN1297_LOOSE.find((cell) => cell.dof === dof && cell.level === level)?.within;
    const within = loose ?? (dof >= 100 ? 0.0005 : 0.005);
    const k = got(coverageFactor(dof, { level, rounding: 'truncate' }));
    expect(Math.abs(k - printed)).toBeLessThanOrEqual(within * (1 + 1e-9));
  });
});

// Full digits: scipy 1.17.1, stats.t.ppf and stats.norm.ppf.
describe('quantiles to full digits (scipy 1.17.1)', () => {
  it.each([
    { p: 0.97725, dof: 1, expected: 13.96781148750255 },
    { p: 0.97725, dof: 1.5, expected: 6.4182150024952405 },
    { p: 0.975, dof: 2.2, expected: 3.948720749712723 },
    { p: 0.975, dof: 16.75, expected: 2.1122169023151316 },
    { p: 0.975, dof: 12.8, expected: 2.1638050535678617 },
    { p: 0.97725, dof: 100, expected: 2.0253116527641972 },
    { p: 0.975, dof: 1e5, expected: 1.9599877075346095 },
  ])('t at p = $p, ν = $dof', ({ p, dof, expected }) => {
    expect(tQuantile(p, dof) / expected - 1).toBeCloseTo(0, 12);
  });

  // mpmath 1.3.0: root of the regularized incomplete beta function, 60 digits.
  it('t at p = 0.001, ν = 10⁶, to the last digit', () =>
    expect(tQuantile(0.001, 1e6)).toBeCloseTo(-3.09024045631652, 14));

  it('near the median t is (p − ½) · √(2π), what the density there leaves, at many degrees of freedom too', () =>
    expect(tQuantile(0.500001, 1e6) / (1e-6 * Math.sqrt(2 * Math.PI))).toBeCloseTo(1, 5));

  // scipy 1.17.1: Φ(1.3); t differs by φ(z)·(z³ + z) ÷ 4ν, that is 10⁻¹³.
  it('Φ from ν = 10¹² on', () => expect(tCdf(1.3, 1e12)).toBeCloseTo(0.9031995154143897, 14));

  // One-sided z: JCGM 106:2012 table (from memory), digits by scipy 1.17.1.
  it.each([
    [0.8, 0.84162],
    [0.9, 1.28155],
    [0.95, 1.64485],
    [0.99, 2.32635],
    [0.999, 3.09023],
  ])('z at %f is %f', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThanOrEqual(5e-6);
  });
});

describe('the distributions hang together', () => {
  const dof = fc.double({ min: 0.5, max: 1e14, noNaN: true });
  it('quantile and distribution undo each other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 0.999, noNaN: true }), dof, (p, nu) => {
        expect(tCdf(tQuantile(p, nu), nu)).toBeCloseTo(p, 9);
        expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 12);
      }),
    );
  });

  it('k falls as the degrees of freedom grow, and never below the normal one', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.6, max: 0.999, noNaN: true }), dof, dof, (p, a, b) => {
        const [few, many] = a < b ? [a, b] : [b, a];
        expect(tQuantile(p, few)).toBeGreaterThanOrEqual(tQuantile(p, many) * (1 - 1e-9));
        expect(tQuantile(p, many)).toBeGreaterThanOrEqual(normalQuantile(p) * (1 - 1e-9));
      }),
    );
  });

  it('is normal at infinitely many degrees of freedom', () => {
    expect(tQuantile(0.975, Number.POSITIVE_INFINITY)).toBe(normalQuantile(0.975));
    expect(tCdf(1.3, Number.POSITIVE_INFINITY)).toBe(normalCdf(1.3));
  });
});
