import { describe, expect, it } from 'vitest';
import { anova, anovaOfMeans } from '../../src/metrology/anova';
import { correlation, covarianceMatrix, propagateCovariance } from '../../src/metrology/covariance';
import { coverageFactor } from '../../src/metrology/coverage';
import { effectiveDof } from '../../src/metrology/dof';
import { fQuantile } from '../../src/metrology/fisher';
import { fitLine, predict } from '../../src/metrology/line';
import { meanUncertainty } from '../../src/metrology/sample';
import { mean } from '../../src/photometry/reading';
import { H1, H2, H3, H5 } from '../references/gum';
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

describe('GUM H.2, correlated resistance, reactance, impedance (as in GTC test_type_a, suncal test_examples)', () => {
  const { voltage, current, phase } = H2;
  const [v, i, f] = [mean(voltage), mean(current), mean(phase)];
  it('means and their uncertainties', () => {
    printed(v, '4.9990');
    printed(i * 1000, '19.6610');
    printed(f, '1.04446');
    printed(meanUncertainty(voltage), '0.0032');
    printed(meanUncertainty(current) * 1000, '0.0095');
    printed(meanUncertainty(phase), '0.00075');
  });

  it('correlations of the inputs', () => {
    printed(correlation(voltage, current), '-0.36');
    printed(correlation(voltage, phase), '0.86');
    printed(correlation(current, phase), '-0.65');
  });

  it('results, uncertainties and their correlations', () => {
    const [r, x, z] = [(v / i) * Math.cos(f), (v / i) * Math.sin(f), v / i];
    printed(r, '127.732');
    printed(x, '219.847');
    printed(z, '254.260');
    const c = propagateCovariance(
      [
        [r / v, -r / i, -x],
        [x / v, -x / i, r],
        [z / v, -z / i, 0],
      ],
      covarianceMatrix([voltage, current, phase]),
    );
    const u = c.map((row, k) => Math.sqrt(row[k]!));
    printed(u[0]!, '0.071');
    // Printed 0.295, from intermediate values already rounded; unrounded it is 0.2956 (suncal allows 0.001 as well).
    expect(Math.abs(u[1]! - 0.295)).toBeLessThan(0.001);
    printed(u[2]!, '0.236');
    printed(c[0]![1]! / (u[0]! * u[1]!), '-0.588');
    printed(c[0]![2]! / (u[0]! * u[2]!), '-0.485');
    printed(c[1]![2]! / (u[1]! * u[2]!), '0.993');
  });
});

it('GUM H.2 from the rounded means, uncertainties and correlations (GTC, GUM_H2 example)', () => {
  const [v, i, f] = [4.999, 19.661e-3, 1.04446];
  const [uv, ui, uf] = [0.0032, 0.0095e-3, 0.00075];
  const [vi, vf, cf] = [-0.36 * uv * ui, 0.86 * uv * uf, -0.65 * ui * uf];
  const [r, x, z] = [(v / i) * Math.cos(f), (v / i) * Math.sin(f), v / i];
  const c = propagateCovariance(
    [
      [r / v, -r / i, -x],
      [x / v, -x / i, r],
      [z / v, -z / i, 0],
    ],
    [
      [uv ** 2, vi, vf],
      [vi, ui ** 2, cf],
      [vf, cf, uf ** 2],
    ],
  );
  expect(Math.sqrt(c[0]![0]!)).toBeCloseTo(0.069978728, 8);
  expect(Math.sqrt(c[1]![1]!)).toBeCloseTo(0.295716827, 8);
  expect(Math.sqrt(c[2]![2]!)).toBeCloseTo(0.236602972, 8);
});

describe('GUM H.3, calibration line of a thermometer (as in GTC)', () => {
  const line = got(fitLine(H3.t, H3.b, H3.reference));
  it('coefficients, uncertainties, correlation', () => {
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
    const at30 = predict(line, 30);
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

describe('GUM H.5, analysis of variance of a voltage standard (suncal test_dataset)', () => {
  const result = got(anovaOfMeans(H5.means, H5.sds, H5.perDay));
  it('has the printed figures', () => {
    printed(result.mean, '10.000097');
    printed(result.sdOfMeans * 1e6, '57');
    printed(result.sdWithin * 1e6, '85');
    // Printed 2.25 from s values already rounded (5 × 57² ÷ 85² = 2.248); unrounded 2.26152 (scipy 1.17.1).
    printed((5 * 57 ** 2) / 85 ** 2, '2.25');
    expect(result.f).toBeCloseTo(2.26152, 5);
    expect([result.dofBetween, result.dofWithin]).toEqual([9, 40]);
  });

  it('has the unrounded figures (scipy 1.17.1)', () => {
    expect(result.sdOfMeans * 1e6).toBeCloseTo(57.0895, 4);
    expect(Math.sqrt(5) * result.sdOfMeans * 1e6).toBeCloseTo(127.656, 3);
    expect(result.sdWithin * 1e6).toBeCloseTo(84.887, 3);
    expect(result.u * 1e6).toBeCloseTo(18.053, 3);
    expect(result.sdBetween * 1e6).toBeCloseTo(42.64, 2);
  });

  it('is judged by F(0.95; 9, 40) = 2.12 and F(0.975; 9, 40) = 2.45 (scipy 1.17.1: 2.1240, 2.4519)', () => {
    expect(fQuantile(0.95, 9, 40)).toBeCloseTo(2.124, 4);
    expect(fQuantile(0.975, 9, 40)).toBeCloseTo(2.4519, 4);
  });

  it('comes out the same from readings as from means and standard deviations', () => {
    const groups = [
      [1, 2, 3],
      [2, 4, 6],
      [5, 5, 8],
    ];
    // By hand: means 2, 4, 6; within variances 1, 4, 3; variance of means 4; F = 3·4 ÷ (8/3) = 4.5.
    const own = got(anova(groups));
    expect(own.f).toBeCloseTo(4.5, 12);
    expect(own.sdOfMeans).toBeCloseTo(2, 12);
    expect(own.sdBetween).toBeCloseTo(Math.sqrt(4 - 8 / 9), 12);
  });

  it('refuses one group, groups of one, unequal groups', () => {
    expect(problemsOf(anova([[1, 2]]))[0]!.code).toBe('shape');
    expect(problemsOf(anova([[1], [2]]))[0]!.code).toBe('shape');
    expect(
      problemsOf(
        anova([
          [1, 2],
          [1, 2, 3],
        ]),
      )[0]!.code,
    ).toBe('shape');
  });
});
