import { describe, expect, it } from 'vitest';
import type { Component } from '../../src/metrology/component';
import type { Coverage } from '../../src/metrology/coverage';
import type { Model } from '../../src/metrology/model';
import type { Simulated } from '../../src/metrology/montecarlo';
import { validate } from '../../src/metrology/validation';
import { typeA, typeB } from './components';
import { got, problemsOf } from './outcome';

/*
 * The law of propagation held against figures of trials as they might come, on paper. Trials that were run are held
 * against it in `montecarlo.test.ts` and `propagation.test.ts`.
 */

const INFINITE = Number.POSITIVE_INFINITY;
/** Two standard deviations of a normal distribution, 2Φ(2) − 1 (scipy 1.17.1): k = 2 where nothing limits ν. */
const TWO_SIGMA: Coverage = { level: 0.9544997361036416, rounding: 'truncate' };
const LABEL = 'White light output';

const normal = (id: string, u: number, dof = INFINITE) => typeA({ id, label: id, value: 0, u, dof });
function model(components: readonly Component[], value = 0, sensitivities = components.map(() => 1)): Model {
  return { components, outputs: [{ id: 'y', label: LABEL, unit: 'lm', value, sensitivities }] };
}
const trials = (mean: number, u: number, low: number, high: number): Simulated => ({
  id: 'y',
  mean,
  u,
  symmetric: { low, high },
  shortest: { low, high },
});

const bent = (percent: string) =>
  `${LABEL}: the model is not near linear over this uncertainty (u of the trials is ${percent} % of the propagated one); use the Monte Carlo's interval.`;
const SHAPE = `${LABEL}: y ± U and the Monte Carlo's interval differ in the digits reported, because the shape of the result is not that of Student's t; use the Monte Carlo's interval.`;
const HEAVY = `${LABEL}: with fewer than three degrees of freedom the spread of the trials has no limit; use the interval, not u.`;

describe('100 ± 10 lm (on paper: u = √(3² + 4²), k = 2), in two digits of u = 5.0 lm', () => {
  const linear = model([normal('a', 3), normal('b', 4)], 100);
  const held = (simulated: Simulated, digits?: number) => got(validate(linear, simulated, TWO_SIGMA, digits));

  it('is held end by end against trials of 99.8 lm with u = 5.03 lm, 90.02 to 109.97 lm', () => {
    const check = held(trials(99.8, 5.03, 90.02, 109.97));
    expect(check.id).toBe('y');
    expect(check.propagated.low).toBeCloseTo(90, 9);
    expect(check.propagated.high).toBeCloseTo(110, 9);
    expect(check.tolerance).toBeCloseTo(0.05, 14);
    expect(check.dLow).toBeCloseTo(0.02, 9);
    expect(check.dHigh).toBeCloseTo(0.03, 9);
    expect(check.uRatio).toBeCloseTo(1.006, 12);
    expect(check).toMatchObject({ agrees: true, isNearLinear: true, remarks: [] });
  });

  // A twentieth of u is 0.25 lm; 1 % of it 0.05 lm; half a unit of the last digit 0.05 lm.
  it.each([
    ['both ends within the digits', trials(100, 5, 90.04, 110.04), true, true, []],
    ['the lower end beyond', trials(100, 5, 90.06, 110), false, true, [SHAPE]],
    ['the upper end beyond', trials(100, 5, 90, 109.94), false, true, [SHAPE]],
    ['u 0.8 % off and the mean 0.24 lm', trials(100.24, 4.96, 90, 110), true, true, []],
    ['u 1.2 % wide', trials(100, 5.06, 90, 110), true, false, [bent('101.2')]],
    ['u 1.2 % narrow', trials(100, 4.94, 90, 110), true, false, [bent('98.80')]],
    ['the mean moved up', trials(100.26, 5, 90, 110), true, false, [bent('100.0')]],
    ['the mean moved down', trials(99.74, 5, 90, 110), true, false, [bent('100.0')]],
    // Where the model is bent the shape is not to blame as well.
    ['all of it off', trials(104, 6, 95, 118), false, false, [bent('120.0')]],
  ])('%s', (_, simulated, agrees, isNearLinear, remarks) =>
    expect(held(simulated)).toMatchObject({ agrees, isNearLinear, remarks }),
  );

  it('has a tolerance of 0.5 lm in one digit', () => {
    const simulated = trials(100, 5, 90.4, 109.6);
    expect(held(simulated, 1)).toMatchObject({ tolerance: 0.5, agrees: true, remarks: [] });
    expect(held(simulated)).toMatchObject({ agrees: false, remarks: [SHAPE] });
  });

  it('is refused at a level that is none', () =>
    expect(
      problemsOf(validate(linear, trials(100, 5, 90, 110), { ...TWO_SIGMA, level: 1 })).map(
        ({ message }) => message,
      ),
    ).toEqual(['The level of confidence must lie between 0 and 1, both excluded; it is 1.']));
});

describe('without any uncertainty', () => {
  const exact = model([normal('a', 0)], 7);
  it('what does not move agrees to the last bit', () =>
    expect(got(validate(exact, trials(7, 0, 7, 7)))).toMatchObject({
      propagated: { low: 7, high: 7 },
      tolerance: 0,
      agrees: true,
      uRatio: 1,
      isNearLinear: true,
      remarks: [],
    }));

  it('any spread of the trials is infinitely more', () => {
    // A square at its least point: to the first order nothing moves it.
    const check = got(validate(model([normal('a', 3)], 7, [0]), trials(7, 1, 6, 8)));
    expect(check).toMatchObject({ agrees: false, uRatio: INFINITE, isNearLinear: false });
    expect(check.remarks).toHaveLength(1);
  });
});

describe('few degrees of freedom', () => {
  /** Trials with ends that agree: t at 95.45 % is 13.968 for ν = 1, 4.527 for 2, 2.869 for 4 (scipy 1.17.1). */
  const within = (u: number, end: number) => trials(0, u, -end, end);

  it("Student's t is drawn wider than its scale: √2 for ν = 4, by √(ν ÷ (ν − 2))", () => {
    const student = model([normal('a', 1, 4)]);
    const check = got(validate(student, within(Math.SQRT2, 2.869)));
    expect(check.uRatio).toBeCloseTo(1, 14);
    expect(check).toMatchObject({ agrees: true, isNearLinear: true, remarks: [] });
    // Where the trials take ν for infinite, u is drawn as it stands.
    const plain = got(validate(student, within(Math.SQRT2, 2.869), undefined, 2, 'normal'));
    expect(plain.uRatio).toBeCloseTo(Math.SQRT2, 14);
    expect(plain.remarks).toEqual([bent('141.4')]);
  });

  it('of a bound widen nothing: its draws keep within it', () => {
    const half = Math.sqrt(3);
    const bound = typeB({ id: 'a', label: 'a', value: 0, halfWidth: half, distribution: 'rectangular' });
    expect(got(validate(model([{ ...bound, dof: 4 }]), within(1, 2.869))).uRatio).toBeCloseTo(1, 14);
  });

  it.each([
    [1, 13.968],
    [2, 4.527],
  ])('ν = %i leaves u without a limit, and the interval is good', (dof, t) => {
    const heavy = model([normal('a', 1, dof)]);
    const held = (end: number) => got(validate(heavy, within(40, end)));
    expect(held(t)).toMatchObject({ agrees: true, uRatio: 0, isNearLinear: false, remarks: [HEAVY] });
    expect(held(t + 1)).toMatchObject({ agrees: false, isNearLinear: false, remarks: [HEAVY, SHAPE] });
  });

  it('matter only where they bear on the result', () => {
    const few = normal('b', 1, 1);
    const ratio = (component: Component, c: number) =>
      got(validate(model([normal('a', 5), component], 0, [1, c]), within(5, 10)));
    expect(ratio(few, 0)).toMatchObject({ uRatio: 1, remarks: [] });
    expect(ratio({ ...few, u: 0 }, 1)).toMatchObject({ uRatio: 1, remarks: [] });
  });
});
