import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../../src/metrology/coverage';
import { effectiveDof } from '../../src/metrology/dof';
import { fitLine, predict } from '../../src/metrology/line';
import { H1, H3 } from '../references/gum';
import { got, halfUnit, problemsOf } from './outcome';

/** Agreement with a printed number: half a unit of its last digit. */
function printed(actual: number, text: string): void {
  expect(Math.abs(actual - Number(text)), `${actual} against ${text}`).toBeLessThanOrEqual(halfUnit(text));
}

describe('GUM H.1, end gauge', () => {
  const total = (parts: readonly { u: number }[]) => Math.sqrt(parts.reduce((sum, { u }) => sum + u * u, 0));

  it('combines to 32 nm', () => printed(total(H1), '32'));

  it('has the unrounded figures of the GTC package (test_uncertain_real_dof)', () => {
    // There l_s = 50 000 000 nm and unrounded sensitivities: Δα 1e-6/√3 per K × 0.1 K, θ 0.41 K etc.
    const theta = -0.1;
    const length = 5e7;
    const parts = [
      { u: 25, dof: 18 },
      { u: 5.8, dof: 24 },
      { u: 3.9, dof: 5 },
      { u: 6.7, dof: 8 },
      { u: (length * Math.abs(theta) * 1e-6) / Math.sqrt(3), dof: 50 },
      { u: (length * 11.5e-6 * 0.05) / Math.sqrt(3), dof: 2 },
    ];
    expect(total(parts)).toBeCloseTo(31.663767411, 8);
    expect(effectiveDof(parts)).toBeCloseTo(16.752147509, 8);
    // u(d) and ν(d) of the same test.
    expect(total(parts.slice(1, 4))).toBeCloseTo(9.681941954, 8);
    expect(effectiveDof(parts.slice(1, 4))).toBeCloseTo(25.447250777, 8);
  });

  it('has ν = 16, t99(16) = 2.92 and U99 = 93 nm (printed; from memory)', () => {
    // The GUM goes on with u_c = 32 nm and ν of d = 25.6.
    const parts = [
      { u: 25, dof: 18 },
      { u: 9.7, dof: 25.6 },
      { u: 2.9, dof: 50 },
      { u: 16.6, dof: 2 },
    ];
    // 17.4718 with u_c rounded to 32 (inputs: R package propagate; value by scipy 1.17.1).
    const sum = parts.reduce((all, { u, dof }) => all + u ** 4 / dof, 0);
    expect(32 ** 4 / sum).toBeCloseTo(17.4718, 4);
    const k = got(coverageFactor(effectiveDof(parts), { level: 0.99, rounding: 'truncate' }));
    printed(k, '2.92');
    printed(k * total(parts), '93');
  });
});

describe('GUM H.3, calibration line of a thermometer (as in GTC)', () => {
  const fitted = () => got(fitLine(H3.t, H3.b, H3.reference));
  it('coefficients, uncertainties, correlation', () => {
    const line = fitted();
    printed(line.intercept, '-0.1712');
    printed(line.uIntercept, '0.0029');
    printed(line.slope, '0.00218');
    printed(line.uSlope, '0.00067');
    printed(line.correlation, '-0.930');
    expect(line.dof).toBe(9);
    // Full digits by scipy 1.17.1.
    expect(line.intercept).toBeCloseTo(-0.17120379, 9);
    expect(line.slope).toBeCloseTo(0.00218269774, 10);
    expect(line.uIntercept).toBeCloseTo(0.002877598, 9);
    expect(line.uSlope).toBeCloseTo(0.00066793877, 10);
    expect(line.sd).toBeCloseTo(0.003497564, 9);
  });

  it('predicts the correction at 30 °C', () => {
    const at30 = predict(fitted(), 30);
    printed(at30.value, '-0.1494');
    printed(at30.u, '0.0041');
    expect(at30.u).toBeCloseTo(0.004138596, 9);
  });

  it('refuses two points, all points at one x, unequal lengths, NaN', () => {
    for (const [x, y, code] of [
      [[1, 2], [1, 2], 'shape'],
      [[1, 1, 1], [1, 2, 3], 'not-defined'],
      [[1, 2, 3], [1, 2], 'shape'],
      [[1, 2, Number.NaN], [1, 2, 3], 'not-a-number'],
    ] as const) {
      expect(problemsOf(fitLine(x, y))[0]!.code).toBe(code);
    }
  });
});
