import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { report, reportText } from '../../src/metrology/report';
import { placeOfDigits, roundAt, wholeUnits, written } from '../../src/metrology/rounding';

describe('results as people report them (rule: GUM 7.2.6; cases by hand)', () => {
  it.each([
    [2231, 118, 'lm', '(2230 ± 120) lm'],
    [2231.4, 96.4, 'lm', '(2231 ± 96) lm'],
    [2231.4, 99.4, 'lm', '(2231 ± 99) lm'],
    [2231.4, 99.5, 'lm', '(2230 ± 100) lm'],
    [1.2345, 0.0995, '', '1.23 ± 0.10'],
    [1.2345, 0.0994, '', '1.235 ± 0.099'],
    [123.456, 9.96, 'lx', '(123 ± 10) lx'],
    [123.456, 9.94, 'lx', '(123.5 ± 9.9) lx'],
    [0.982345, 0.0312, '', '0.982 ± 0.031'],
    [-0.3, 12, 'lm', '(0 ± 12) lm'],
    [-0.5, 12, 'lm', '(-1 ± 12) lm'],
    [1.005, 0.1, '', '1.01 ± 0.10'],
    [0, 0.5, '', '0.00 ± 0.50'],
    [0, 0.000000061, 'm', '(0.0 ± 6.1) × 10⁻⁸ m'],
    [-0.00001234, 0.000000061, '', '(-1.2340 ± 0.0061) × 10⁻⁵'],
    [100.02147, 0.00035, 'g', '(100.02147 ± 0.00035) g'],
    [123456789, 1234567, 'lm', '(1.235 ± 0.012) × 10⁸ lm'],
    [0.0000012345, 0.000000061, 'm', '(1.235 ± 0.061) × 10⁻⁶ m'],
    [0.0012345, 0.000061, 'm', '(0.001235 ± 0.000061) m'],
    [0.0002, 0.00098, '', '0.00020 ± 0.00098'],
    [12, 34000, 'lm', '(0 ± 34000) lm'],
    [2231.4567, 0, 'lm', '(2231.46 ± 0) lm'],
    [0, 0, 'lm', '(0 ± 0) lm'],
    [2200, 0, 'lm', '(2200 ± 0) lm'],
    [2231.0567, 0, 'lm', '(2231.06 ± 0) lm'],
    [1.5, 0, '', '1.5 ± 0'],
    [0.00012345, 0.0000061, '', '0.0001235 ± 0.0000061'],
    [0.000012345, 0.00000061, '', '(1.235 ± 0.061) × 10⁻⁵'],
  ])('%f ± %f %s → %s', (value, expanded, unit, text) =>
    expect(reportText(value, expanded, unit)).toBe(text),
  );

  // GUM 7.2.2: m_S = 100.021 47 g with u = 0.35 mg; 7.2.4: ± 0.000 79 g (from memory).
  it('writes the GUM’s mass standard as the GUM does', () =>
    expect(reportText(100.02147, 0.00079, 'g')).toBe('(100.02147 ± 0.00079) g'));

  it('needs no unit', () => expect(reportText(1.2345, 0.0995)).toBe('1.23 ± 0.10'));

  it('keeps three digits where asked', () => expect(reportText(2231, 118, 'lm', 3)).toBe('(2231 ± 118) lm'));
});

describe('rounding', () => {
  // By hand, half away from zero.
  it.each([
    [0.0995, -2, 0.1],
    [2.5, 0, 3],
    [-2.5, 0, -3],
    [1.005, -2, 1.01],
    [149, 2, 100],
    [150, 2, 200],
    [49, 2, 0],
    [9.96, 0, 10],
    [1e21, 3, 1e21],
    [5e-324, 0, 0],
    [1.5e-7, -7, 2e-7],
  ])('%f to 10^%i → %f', (value, place, expected) => expect(roundAt(value, place)).toBe(expected));

  it('lands within half a unit, and does not move what is already round', () => {
    const value = fc.double({ min: -1e9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(value, fc.integer({ min: -6, max: 6 }), (x, place) => {
        const once = roundAt(x, place);
        expect(Math.abs(once - x)).toBeLessThanOrEqual(0.5 * 10 ** place * (1 + 1e-9) + 1e-12 * Math.abs(x));
        expect(roundAt(once, place)).toBe(once);
      }),
    );
  });

  it('leaves U with exactly two significant digits, and value and U with the same last place', () => {
    const u = fc.double({ min: 1e-9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), u, (value, expanded) => {
        const { value: v, expanded: text, place } = report(value, expanded);
        const units = wholeUnits(expanded, place);
        expect(units >= 10n && units <= 99n).toBe(true);
        expect(v.split('.')[1]?.length).toBe(text.split('.')[1]?.length);
        expect(v.startsWith('-0') && Number(v) === 0).toBe(false);
      }),
    );
  });

  it('writes whole units out', () => {
    expect(written(-5n, -2)).toBe('-0.05');
    expect(written(12n, 1)).toBe('120');
    expect(written(0n, 2)).toBe('0');
    expect(placeOfDigits(9.96, 2)).toBe(0);
  });
});
