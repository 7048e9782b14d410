import { describe, expect, it } from 'vitest';
import type { Component } from '../../src/metrology/component';
import { coverageFactor } from '../../src/metrology/coverage';
import type { Model } from '../../src/metrology/model';
import { budget } from './budget';
import { typeA, typeB } from './components';
import { got } from './outcome';

const INFINITE = Number.POSITIVE_INFINITY;
const rectangle = (label: string, halfWidth: number) =>
  typeB({ id: label, label, value: 0, halfWidth, distribution: 'rectangular' });

function total(components: readonly Component[], value: number): Model {
  return {
    components,
    outputs: [{ id: 'y', label: 'y', unit: '', value, sensitivities: components.map(() => 1) }],
  };
}

describe('EA-4/02 S2, calibration of a 10 kg weight (mg)', () => {
  const standard = typeB({
    id: 'm_S',
    label: 'standard',
    value: 0,
    halfWidth: 45,
    distribution: 'normal',
    coverageFactor: 2,
  });
  const bounds = [rectangle('drift', 15), rectangle('eccentricity', 10), rectangle('buoyancy', 10)];

  // A worked-example page of S02. It prints ν_eff = 122 too, from a ν of the difference that our notes do not hold.
  it('the worked example: u = 29.1465, U(k = 2) = 58 mg', () => {
    const difference = typeA({ id: 'd', label: 'difference', value: 0, u: 14.2, dof: INFINITE });
    const result = got(budget(total([standard, bounds[0]!, difference, bounds[1]!, bounds[2]!], 0), 'y'));
    expect(result.lines.map(({ u }) => Number(u.toPrecision(3)))).toEqual([22.5, 8.66, 14.2, 5.77, 5.77]);
    expect(Math.abs(result.u - 29.1465)).toBeLessThan(0.002);
    expect(Math.round(2 * result.u)).toBe(58);
  });

  it('the document: 25 ÷ √3 = 14.4 mg of a pooled s, U = 59 mg (from memory; 29.262 by scipy 1.17.1)', () => {
    const difference = typeA({ id: 'd', label: 'difference', value: 0, u: 25 / Math.sqrt(3), dof: INFINITE });
    const result = got(budget(total([standard, ...bounds, difference], 0), 'y'));
    expect(result.u).toBeCloseTo(29.262, 3);
    expect(Math.round(2 * result.u)).toBe(59);
  });
});

// Inputs and results of both from memory; that the printed u follows from the inputs was worked by hand.
describe('EA-4/02 S3, calibration of a 10 kΩ standard resistor (mΩ)', () => {
  it('u = 8.33 mΩ, U(k = 2) = 17 mΩ, with a triangular half-width among rectangular ones', () => {
    const components = [
      typeB({
        id: 'R_S',
        label: 'standard',
        value: 0,
        halfWidth: 5,
        distribution: 'normal',
        coverageFactor: 2,
      }),
      rectangle('drift', 10),
      rectangle('temperature of the standard', 2.75),
      rectangle('temperature of the resistor', 5.5),
      typeB({
        id: 'r_C',
        label: 'parasitic effects',
        value: 0,
        halfWidth: 10,
        distribution: 'triangular',
      }),
      typeA({ id: 'r', label: 'ratio', value: 0, u: 0.7, dof: 4 }),
    ];
    const result = got(budget(total(components, 0), 'y'));
    expect(result.lines.map(({ u }) => Number(u.toPrecision(3)))).toEqual([2.5, 5.77, 1.59, 3.18, 4.08, 0.7]);
    expect(result.u).toBeCloseTo(8.33, 2);
    expect(Math.round(2 * result.u)).toBe(17);
  });
});

describe('EA-4/02 S4, calibration of a gauge block of 50 mm (nm)', () => {
  it('u = 36.4 nm, U(k = 2) = 73 nm; sensitivities other than 1, one of them negative', () => {
    const components = [
      typeB({
        id: 'l_S',
        label: 'standard',
        value: 0,
        halfWidth: 30,
        distribution: 'normal',
        coverageFactor: 2,
      }),
      rectangle('drift', 30),
      typeA({ id: 'dl', label: 'difference', value: 0, u: 12 / Math.sqrt(5), dof: INFINITE }),
      rectangle('comparator', 32),
      rectangle('temperature difference, K', 0.05),
      typeA({ id: 'da', label: 'expansion times temperature', value: 0, u: 0.236, dof: INFINITE }),
      rectangle('position', 6.7),
    ];
    const sensitivities = [1, 1, 1, 1, -575, 50, 1];
    const model: Model = {
      components,
      outputs: [{ id: 'y', label: 'y', unit: 'nm', value: 0, sensitivities }],
    };
    const result = got(budget(model, 'y'));
    expect(result.lines.map(({ contribution }) => Number(contribution.toPrecision(3)))).toEqual([
      15, 17.3, 5.37, 18.5, 16.6, 11.8, 3.87,
    ]);
    expect(result.u).toBeCloseTo(36.4, 1);
    expect(Math.round(2 * result.u)).toBe(73);
  });
});

describe('quotients of a published course (SNL ENGR224, X-ray fluorescence; suncal test_examples)', () => {
  it('0.1820/0.1823 × 0.6978: u 0.00494, ν_eff 27.7 (slides round on the way), U95 0.0101', () => {
    const part = (id: string, value: number, u: number, dof: number) =>
      typeA({ id, label: id, value, u, dof });
    const components = [
      part('X1', 0.182, 0.00093, 9),
      part('X2', 0.1823, 0.00058, 19),
      part('Y', 0.6978, 0.0026, 19),
    ];
    const value = (0.182 / 0.1823) * 0.6978;
    const sensitivities = [value / 0.182, -value / 0.1823, value / 0.6978];
    const model: Model = { components, outputs: [{ id: 'y', label: 'y', unit: '', value, sensitivities }] };
    const result = got(budget(model, 'y', { level: 0.95, rounding: 'truncate' }));
    expect(result.value).toBeCloseTo(0.6967, 4);
    // The slides round on the way; unrounded u is 0.004932.
    expect(Math.abs(result.u - 0.00494)).toBeLessThan(1e-5);
    expect(Math.abs(result.dof - 27.7)).toBeLessThan(0.5);
    expect(result.expanded).toBeCloseTo(0.0101, 4);
  });

  it('a single cause known to a few degrees of freedom keeps them: k = t (NIST TN 1297: 2.87 at ν = 4)', () => {
    expect(got(coverageFactor(4))).toBeCloseTo(2.87, 2);
  });
});
