import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coverageFactor, DEFAULT_COVERAGE, expand, usedDof } from '../../src/metrology/coverage';
import { divisor } from '../../src/metrology/distribution';
import { effectiveDof, welchSatterthwaite } from '../../src/metrology/dof';
import { typeB } from './components';
import { got, problemsOf } from './outcome';

const INFINITE = Number.POSITIVE_INFINITY;

describe('effective degrees of freedom', () => {
  it.each([
    // suncal test_examples (course notes): 12.8; full digits by scipy 1.17.1.
    {
      parts: [
        { u: 0.57, dof: 9 },
        { u: 0.25, dof: INFINITE },
      ],
      expected: 12.795649,
    },
    // Two equal parts with equal ν: ν_eff = 2ν. By hand.
    {
      parts: [
        { u: 3, dof: 5 },
        { u: 3, dof: 5 },
      ],
      expected: 10,
    },
    // One part alone keeps its ν.
    { parts: [{ u: 3, dof: 7 }], expected: 7 },
    // GUM G.4.1, example: 0.25 %, 0.57 %, 0.82 % with ν = 9, 4, 14 relative parts of 1: 19.0 (printed; from memory).
    {
      parts: [
        { u: 0.25, dof: 9 },
        { u: 0.57, dof: 4 },
        { u: 0.82, dof: 14 },
      ],
      expected: 19.0,
    },
  ])('$parts → $expected', ({ parts, expected }) => {
    expect(Math.abs(got(welchSatterthwaite(parts)) - expected)).toBeLessThan(expected === 19 ? 0.05 : 1e-6);
  });

  it('is infinite where every part is known well, or none has any size', () => {
    expect(effectiveDof([{ u: 1, dof: INFINITE }])).toBe(INFINITE);
    expect(effectiveDof([{ u: 0, dof: 3 }])).toBe(INFINITE);
    expect(effectiveDof([])).toBe(INFINITE);
  });

  it('counts nine uses of one estimate once', () => {
    const nine = Array.from({ length: 9 }, () => ({ u: 1 / 3, dof: 4, estimate: 'pooled' }));
    expect(effectiveDof(nine)).toBeCloseTo(4, 12);
    expect(effectiveDof(nine.map(({ u, dof }) => ({ u, dof })))).toBeCloseTo(36, 12);
  });

  it('asks nothing of the ν of a part without size, and minds no size of a part known well', () => {
    expect(
      got(
        welchSatterthwaite([
          { u: 0, dof: 0 },
          { u: 2, dof: 5 },
        ]),
      ),
    ).toBe(5);
    // u⁴ is more than a number can hold.
    expect(effectiveDof([{ u: 1e100, dof: INFINITE }])).toBe(INFINITE);
  });

  it('lies between the least ν and their sum (GUM G.4.1)', () => {
    const part = fc.record({
      u: fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
      dof: fc.double({ min: 1, max: 1e3, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 12 }), (parts) => {
        const nu = effectiveDof(parts);
        expect(nu).toBeGreaterThanOrEqual(Math.min(...parts.map(({ dof }) => dof)) * (1 - 1e-9));
        expect(nu).toBeLessThanOrEqual(parts.reduce((sum, { dof }) => sum + dof, 0) * (1 + 1e-9));
      }),
    );
  });

  it('refuses ν = 0, negative u and NaN', () => {
    expect(problemsOf(welchSatterthwaite([{ u: 1, dof: 0 }]))[0]!.code).toBe('not-defined');
    expect(problemsOf(welchSatterthwaite([{ u: -1, dof: 3 }]))[0]!.code).toBe('negative');
    expect(problemsOf(welchSatterthwaite([{ u: Number.NaN, dof: 3 }]))[0]!.code).toBe('not-a-number');
  });
});

describe('divisors', () => {
  // GUM 4.3.7 (rectangular), 4.3.9 (triangular), F.2.2.1 (resolution 0.29 δ); arcsine: EA-4/02, JCGM 101 6.4.6.
  it.each([
    ['rectangular', 1.7320508075688772],
    ['triangular', 2.449489742783178],
    ['u-shaped', Math.SQRT2],
  ] as const)('%s %f', (distribution, expected) => expect(divisor(distribution)).toBeCloseTo(expected, 15));
  it('normal: the coverage factor', () => expect(divisor('normal', 2)).toBe(2));
  it('resolution: 0.29 of the step', () => expect(0.5 / divisor('rectangular')).toBeCloseTo(0.29, 2));
  it('4 % of 1000 lx and 10 digits of 0.1 lx give 23.671 lx (scipy 1.17.1)', () => {
    const meter = typeB({
      id: 'meter',
      label: 'meter',
      value: 1000,
      halfWidth: 41,
      distribution: 'rectangular',
    });
    expect(meter.u).toBeCloseTo(23.671, 3);
  });
});

describe('coverage', () => {
  it('cuts ν_eff to the next lower whole number, or uses it as it is', () => {
    // t95(16) = 2.1199, t95(16.75) = 2.11222 (scipy 1.17.1).
    expect(got(coverageFactor(16.75, { level: 0.95, rounding: 'truncate' }))).toBeCloseTo(2.1199, 4);
    expect(got(coverageFactor(16.75, { level: 0.95, rounding: 'interpolate' }))).toBeCloseTo(2.11222, 5);
  });
  it('does not cut a whole number that rounding errors have put below itself', () => {
    expect(usedDof(15.999999999999998, 'truncate')).toBe(16);
    expect(usedDof(15.9, 'truncate')).toBe(15);
  });
  it('is 2.00 at the default level and infinite ν', () => {
    expect(got(coverageFactor(INFINITE))).toBeCloseTo(2, 5);
  });
  it('refuses a probability of 1, of 0, beyond, and ν below 1', () => {
    for (const level of [0, 1, 1.2, -0.5, Number.NaN]) {
      expect(problemsOf(coverageFactor(5, { level, rounding: 'truncate' }))[0]!.code).toBe('out-of-bounds');
    }
    expect(problemsOf(coverageFactor(0))[0]!.code).toBe('not-defined');
    expect(problemsOf(coverageFactor(Number.NaN))[0]!.code).toBe('not-defined');
  });
  it('gives U = 0 for u = 0, and refuses a negative u', () => {
    expect(got(expand(0, INFINITE)).expanded).toBe(0);
    expect(problemsOf(expand(-1, 5, DEFAULT_COVERAGE))[0]!.code).toBe('negative');
  });
});
