import { describe, expect, it } from 'vitest';
import { Bits } from '../../src/metrology/bits';
import type { Component } from '../../src/metrology/component';
import { DISTRIBUTIONS } from '../../src/metrology/distribution';
import { unit } from '../../src/metrology/draws';
import type { Model } from '../../src/metrology/model';
import { simulate } from '../../src/metrology/montecarlo';
import { runModel } from '../../src/metrology/run/model';
import { runTrial } from '../../src/metrology/run/trial';
import type { TrialModel } from '../../src/metrology/trial';
import { validate } from '../../src/metrology/validation';
import { amount } from '../tools/amount';
import { typeB } from './components';
import { got } from './outcome';
import { randomRun } from './runs';

const TRIALS = 100_000;
/** 500 budgets, the long run, take their time: some 40 million random states. */
const SLOW = { timeout: 300_000 };
const PRODUCTS = amount(40, 400);
const RUNS = amount(16, 100);

/**
 * A random product of powers, Π xᵢ^pᵢ, of 3 to 10 factors with relative half-widths up to `doubt`, and its
 * linear form: ∂y/∂xᵢ = pᵢ·y ÷ xᵢ.
 */
function randomProduct(seed: number, doubt: number): { linear: Model; trial: TrialModel } {
  const bits = new Bits(seed);
  const powers = Array.from({ length: 3 + Math.floor(8 * unit(bits)) }, () => (unit(bits) < 0.7 ? 1 : -1));
  const components = powers.map((_, i): Component => {
    const value = 0.1 + 10 * unit(bits);
    const distribution = DISTRIBUTIONS[Math.floor(4 * unit(bits))]!;
    const halfWidth = doubt * value * (0.2 + 0.8 * unit(bits)) * (distribution === 'normal' ? 0.5 : 1);
    return typeB({ id: `x${i}`, label: `x${i}`, value, halfWidth, distribution });
  });
  const f = (x: readonly number[] | Float64Array) => {
    let product = 1;
    for (let i = 0; i < powers.length; i++) product *= powers[i]! > 0 ? x[i]! : 1 / x[i]!;
    return product;
  };
  const value = f(components.map((component) => component.value));
  const naming = { id: 'y', label: 'y', unit: '' };
  const sensitivities = components.map((component, i) => (powers[i]! * value) / component.value);
  const evaluate = (x: Float64Array, y: Float64Array) => {
    y[0] = f(x);
  };
  return {
    linear: { components, outputs: [{ ...naming, value, sensitivities }] },
    trial: { components, outputs: [naming], evaluate },
  };
}

describe('law of propagation against Monte Carlo, random budgets', () => {
  it(`${PRODUCTS} near-linear products: u within 1 %, and nothing is said against it`, SLOW, () => {
    for (let seed = 1; seed <= PRODUCTS; seed++) {
      const { linear, trial } = randomProduct(seed, 0.03);
      const simulated = got(simulate(trial, { trials: TRIALS, seed })).outputs[0]!;
      const check = got(validate(linear, simulated));
      expect(Math.abs(check.uRatio - 1), `seed ${seed}`).toBeLessThan(0.01);
      expect(check.isNearLinear, `seed ${seed}`).toBe(true);
    }
  });

  it(
    `${RUNS} random runs with usual doubts: u of every result within 1 %, or it is said why not`,
    SLOW,
    () => {
      let [rough, clear] = [0, 0];
      for (let seed = 1; seed <= RUNS; seed++) {
        const run = got(runModel(randomRun(seed)));
        // u as it stands: with few repeats Student's t is wider by √(ν ÷ (ν − 2)), which is no matter of linearity.
        const options = { trials: TRIALS, seed, finiteDof: 'normal' } as const;
        for (const simulated of got(simulate(runTrial(run), options)).outputs) {
          const check = got(validate(run, simulated, undefined, 2, 'normal'));
          // The trials look for the extremes anew: where other points rival them, the linear model says that it is rough.
          if (simulated.id === 'uniformity' && run.extremes.rivals > 0) {
            if (!check.isNearLinear) rough++;
            continue;
          }
          if (simulated.id === 'uniformity') clear++;
          expect(Math.abs(check.uRatio - 1), `seed ${seed}, ${simulated.id}`).toBeLessThan(0.01);
          expect(check.isNearLinear, `seed ${seed}, ${simulated.id}`).toBe(true);
        }
      }
      // It is not said for nothing.
      expect(rough).toBeGreaterThan(0.2 * RUNS);
      expect(clear).toBeGreaterThan(0);
    },
  );

  it('says so where a model is not near linear: quotients with doubts of half the value', SLOW, () => {
    let said = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const { linear, trial } = randomProduct(seed, 0.6);
      const simulated = got(simulate(trial, { trials: TRIALS, seed })).outputs[0]!;
      const check = got(validate(linear, simulated));
      const far = Math.abs(check.uRatio - 1) > 0.01;
      expect(check.remarks.length > 0).toBe(!(check.isNearLinear && check.agrees));
      if (far) {
        expect(check.isNearLinear).toBe(false);
        said += 1;
      }
    }
    expect(said).toBeGreaterThan(15);
  });

  it('a usual run agrees with the interval of 10⁶ trials in the digits reported', SLOW, () => {
    const run = got(runModel(randomRun(77)));
    const simulation = got(simulate(runTrial(run), { seed: 5 }));
    for (const simulated of simulation.outputs) {
      if (simulated.id === 'uniformity' && run.extremes.rivals > 0) continue;
      const check = got(validate(run, simulated));
      expect(check.isNearLinear, simulated.id).toBe(true);
      // A result ruled by one rectangle has a shorter interval than y ± U of a normal shape, never a longer one.
      expect(simulated.symmetric.high - simulated.symmetric.low).toBeLessThan(
        (check.propagated.high - check.propagated.low) * 1.01,
      );
    }
  });
});
