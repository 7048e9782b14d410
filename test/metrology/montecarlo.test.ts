import { describe, expect, it } from 'vitest';
import type { Component } from '../../src/metrology/component';
import type { Distribution } from '../../src/metrology/distribution';
import type { Model } from '../../src/metrology/model';
import { type MonteCarloOptions, simulate } from '../../src/metrology/montecarlo';
import type { TrialModel } from '../../src/metrology/trial';
import { validate } from '../../src/metrology/validation';
import { linearTrial, typeA, typeB } from './components';
import { got, problemsOf } from './outcome';

function bound(id: string, distribution: Distribution, value: number, halfWidth: number): Component {
  return typeB({ id, label: id, value, halfWidth, distribution });
}
const student = (id: string, value: number, u: number, dof: number) =>
  typeA({ id, label: id, value, u, dof });

const output = { id: 'y', label: 'y', unit: '' };
function trial(components: Component[], f: (x: Float64Array) => number): TrialModel {
  return {
    components,
    outputs: [output],
    evaluate: (x, y) => {
      y[0] = f(x);
    },
  };
}
const run = (model: TrialModel, options: MonteCarloOptions = {}) => got(simulate(model, options)).outputs[0]!;

const four = (distribution: Distribution, halves: readonly number[]): Model => ({
  components: halves.map((half, i) => bound(`X${i + 1}`, distribution, 0, half)),
  outputs: [{ ...output, value: 0, sensitivities: [1, 1, 1, 1] }],
});

describe('JCGM 101 9.2, additive model X1 + X2 + X3 + X4', () => {
  it('9.2.2: all normal: u = 2.0, 95 % interval ± 3.92', () => {
    const y = run(linearTrial(four('normal', [1, 1, 1, 1])), { level: 0.95 });
    expect(y.u).toBeCloseTo(2, 2);
    expect(Math.abs(y.symmetric.high - 3.92)).toBeLessThan(0.02);
    expect(Math.abs(y.symmetric.low + 3.92)).toBeLessThan(0.02);
  });

  it('9.2.3: all rectangular of unit u: ± 3.88 (exactly 3.87940674), not the ± 3.92 of the propagation', () => {
    const model = four(
      'rectangular',
      Array.from({ length: 4 }, () => Math.sqrt(3)),
    );
    const y = run(linearTrial(model), { level: 0.95 });
    expect(y.u).toBeCloseTo(2, 2);
    const exact = 2 * Math.sqrt(3) * (2 - 0.6 ** 0.25);
    expect(exact).toBeCloseTo(3.87940674, 8);
    expect(Math.abs(y.symmetric.high - exact)).toBeLessThan(0.015);
    expect(Math.abs(y.symmetric.low + exact)).toBeLessThan(0.015);
    expect(Math.abs(y.shortest.high - y.shortest.low - 2 * exact)).toBeLessThan(0.03);
    // Table 3 (from memory): with two digits the two agree, because 3.92 and 3.88 differ by less than δ = 0.05.
    const coverage = { level: 0.95, rounding: 'truncate' } as const;
    const check = got(validate(model, y, coverage));
    expect(check.tolerance).toBe(0.05);
    expect(check.propagated.high).toBeCloseTo(3.92, 2);
    expect(check).toMatchObject({ agrees: true, isNearLinear: true, remarks: [] });
  });

  it('9.2.4: one ten times wider: u = 10.1, ± 17.0 where the propagation has ± 19.9 (table 4, from memory)', () => {
    const model = four(
      'rectangular',
      [1, 1, 1, 10].map((u) => u * Math.sqrt(3)),
    );
    const y = run(linearTrial(model), { level: 0.95 });
    expect(Math.abs(y.u - 10.1)).toBeLessThan(0.06);
    expect(Math.abs(y.symmetric.high - 17)).toBeLessThan(0.06);
    const check = got(validate(model, y, { level: 0.95, rounding: 'truncate' }));
    expect(Math.abs(check.propagated.high - 19.9)).toBeLessThan(0.1);
    // The shape of the result is to blame, not the model.
    expect(check).toMatchObject({ agrees: false, isNearLinear: true });
    expect(check.remarks[0]).toContain("Student's t");
  });
});

describe('JCGM 101 9.3, mass calibration (table 6, from memory)', () => {
  const components = [
    bound('m_R', 'normal', 100_000, 0.05),
    bound('dm_R', 'normal', 1.234, 0.02),
    bound('rho_a', 'rectangular', 1.2, 0.1),
    bound('rho_W', 'rectangular', 8000, 1000),
    bound('rho_R', 'rectangular', 8000, 50),
  ];
  const model = trial(
    components,
    ([m, d, a, w, r]) => (m! + d!) * (1 + (a! - 1.2) * (1 / w! - 1 / r!)) - 100_000,
  );
  const linear: Model = {
    components,
    outputs: [{ ...output, value: 1.234, sensitivities: [1, 1, 0, 0, 0] }],
  };
  const y = run(model, { level: 0.95 });

  it('δm = 1.234 mg, u = 0.0754 mg, shortest interval 1.083 to 1.383 mg', () => {
    expect(y.mean).toBeCloseTo(1.234, 3);
    expect(Math.abs(y.u - 0.0754)).toBeLessThan(0.0003);
    expect(Math.abs(y.shortest.low - 1.0834)).toBeLessThan(0.003);
    expect(Math.abs(y.shortest.high - 1.3825)).toBeLessThan(0.003);
  });

  it('says that the first-order law of propagation (u = 0.0539 mg, 1.1285 to 1.3395 mg) does not do', () => {
    const check = got(validate(linear, y, { level: 0.95, rounding: 'truncate' }));
    expect(check.propagated.low).toBeCloseTo(1.1285, 4);
    expect(check.propagated.high).toBeCloseTo(1.3395, 4);
    expect(check).toMatchObject({ agrees: false, isNearLinear: false });
    expect(check.remarks[0]).toContain('not near linear');
  });
});

describe('other published Monte Carlo cases', () => {
  it('ln x, x rectangular 0.1 to 1.1: mean −0.665, u 0.606, shortest −1.895 to 0.095 (NPL DEM-ES-011, table 9.2; suncal)', () => {
    const components = [bound('x', 'rectangular', 0.6, 0.5)];
    const y = run(
      trial(components, ([x]) => Math.log(x!)),
      { level: 0.95 },
    );
    expect(Math.abs(y.mean + 0.665)).toBeLessThan(0.002);
    expect(Math.abs(y.u - 0.606)).toBeLessThan(0.002);
    expect(Math.abs(y.shortest.low + 1.895)).toBeLessThan(0.01);
    expect(Math.abs(y.shortest.high - 0.095)).toBeLessThan(0.01);
    // The law of propagation there: −0.511, u 0.481, upper end 0.432.
    const linear: Model = {
      components,
      outputs: [{ ...output, value: Math.log(0.6), sensitivities: [1 / 0.6] }],
    };
    const check = got(validate(linear, y, { level: 0.95, rounding: 'truncate' }));
    expect(check.propagated.high).toBeCloseTo(0.432, 3);
    expect(check).toMatchObject({ agrees: false, isNearLinear: false });
  });

  it('squares of two normals at zero: mean and u 50e-6, shortest 0 to 150e-6 (JCGM 101 9.4.2, from memory)', () => {
    const components = [bound('a', 'normal', 0, 0.005), bound('b', 'normal', 0, 0.005)];
    const y = run(
      trial(components, ([a, b]) => a! ** 2 + b! ** 2),
      { level: 0.95 },
    );
    expect(Math.abs(y.mean * 1e6 - 50)).toBeLessThan(0.3);
    expect(Math.abs(y.u * 1e6 - 50)).toBeLessThan(0.5);
    expect(y.shortest.low * 1e6).toBeLessThan(0.1);
    expect(Math.abs(y.shortest.high * 1e6 - 150)).toBeLessThan(1);
    const linear: Model = { components, outputs: [{ ...output, value: 0, sensitivities: [0, 0] }] };
    expect(got(validate(linear, y)).isNearLinear).toBe(false);
  });

  it('thermal expansion from t-distributed inputs of ν = 3: 1.727e-5, u 1.7e-6 /K (NIST TN 1900, E13; suncal)', () => {
    // There the scale is u·√(1/3), so that the spread of the t is u itself.
    const t = (id: string, value: number, u: number) => student(id, value, u / Math.sqrt(3), 3);
    const components = [
      t('L0', 1.4999, 1e-4),
      t('T0', 288.15, 0.02),
      t('L1', 1.5021, 2e-4),
      t('T1', 373.1, 0.05),
    ];
    const y = run(trial(components, ([l0, t0, l1, t1]) => (l1! - l0!) / (l0! * (t1! - t0!))));
    expect(Math.abs(y.mean * 1e5 - 1.7268)).toBeLessThan(0.002);
    expect(Math.abs(y.u * 1e6 - 1.75)).toBeLessThan(0.06);
  });

  it('end gauge of GUM H.1 with its t-distributed inputs: 838 nm, u = 36 nm (JCGM 101 9.5, from memory)', () => {
    // Inputs as METAS UncLib's example GUM H1 has them; lengths in nm.
    const components = [
      student('l_s', 50_000_623, 25, 18),
      student('d1', 215, 5.8, 24),
      student('d2', 0, 3.9, 5),
      student('d3', 0, 6.7, 8),
      bound('alpha_s', 'rectangular', 11.5e-6, 2e-6),
      bound('theta_mean', 'normal', -0.1, 0.2),
      bound('theta_cyclic', 'u-shaped', 0, 0.5),
      bound('d_alpha', 'rectangular', 0, 1e-6),
      bound('d_theta', 'rectangular', 0, 0.05),
    ];
    const model = trial(
      components,
      ([ls, d1, d2, d3, as, tm, tc, da, dt]) => ls! + d1! + d2! + d3! - ls! * (da! * (tm! + tc!) + as! * dt!),
    );
    const y = run(model, { level: 0.99 });
    expect(Math.abs(y.mean - 50_000_838)).toBeLessThan(0.5);
    // Without the doubt about the bounds ± 1e-6 and ± 0.05 (ν = 50 and 2 in the GUM) it is a little less than 36.
    expect(Math.abs(y.u - 35)).toBeLessThan(1.5);
  });
});

describe('running', () => {
  const model = linearTrial(four('rectangular', [1, 1, 1, 1]));
  it('gives the same figures for the same seed, whatever the chunks, and others for another seed', () => {
    const once = got(simulate(model, { trials: 10_000, seed: 3 }));
    expect(got(simulate(model, { trials: 10_000, seed: 3, chunk: 777 }))).toEqual(once);
    expect(got(simulate(model, { trials: 10_000, seed: 4 })).outputs[0]!.mean).not.toBe(
      once.outputs[0]!.mean,
    );
  });

  it('tells its progress after every chunk', () => {
    const seen: number[] = [];
    got(simulate(model, { trials: 2500, chunk: 1000, onProgress: (done) => seen.push(done) }));
    expect(seen).toEqual([1000, 2000, 2500]);
  });

  it('refuses too many or no trials, a level of 1, a seed that is no number', () => {
    const code = (options: MonteCarloOptions) => problemsOf(simulate(model, options))[0]!.code;
    expect(code({ trials: 1 })).toBe('out-of-bounds');
    expect(code({ trials: 1.5 })).toBe('out-of-bounds');
    expect(code({ trials: 1e9 })).toBe('too-large');
    expect(code({ level: 1 })).toBe('out-of-bounds');
    expect(code({ seed: Number.NaN })).toBe('not-a-number');
  });

  it('says when a divisor reaches 0', () => {
    const zero = trial([bound('x', 'rectangular', 0, 0)], ([x]) => 1 / x!);
    expect(problemsOf(simulate(zero, { trials: 100 }))[0]!.message).toContain('no numbers');
  });

  it('says that u has no meaning below three degrees of freedom, and compares the intervals', () => {
    const components = [student('x', 0, 1, 2)];
    const linear: Model = { components, outputs: [{ ...output, value: 0, sensitivities: [1] }] };
    const y = run(linearTrial(linear), { level: 0.95 });
    // t95(2) = 4.30 (NIST TN 1297, table B.1).
    expect(Math.abs(y.symmetric.high - 4.3)).toBeLessThan(0.05);
    const check = got(validate(linear, y, { level: 0.95, rounding: 'truncate' }));
    expect(check.isNearLinear).toBe(false);
    expect(check.remarks[0]).toContain('fewer than three');
  });

  it('lets one pooled estimate err for all its readings at once', () => {
    const pooled = (id: string) => typeA({ id, label: id, value: 0, u: 0.5, dof: 3, estimate: 's' });
    const components = ['a', 'b', 'c', 'd'].map(pooled);
    const model: Model = { components, outputs: [{ ...output, value: 0, sensitivities: [1, 1, 1, 1] }] };
    const y = run(linearTrial(model), { level: 0.95 });
    // Four readings of s = 0.5 add to s = 1 with ν = 3: Student's t, 3.18 (NIST TN 1297, table B.1).
    expect(Math.abs(y.symmetric.high - 3.18)).toBeLessThan(0.03);
    expect(got(validate(model, y, { level: 0.95, rounding: 'truncate' })).agrees).toBe(true);
  });
});
