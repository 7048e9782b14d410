import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { predict } from '../../src/metrology/line';
import { tQuantile } from '../../src/metrology/student';
import { type AgeingFit, fitAgeing, fittedOutput } from '../../src/procurement/ageing/fit';
import { type HoursTo, hoursTo, hoursToPart, initialOf } from '../../src/procurement/ageing/hours';
import { nextMeasurement } from '../../src/procurement/ageing/next';
import type { AgeingPoint } from '../../src/procurement/ageing/points';
import { expectPrinted } from '../photometry/closeto';
import { goodOf, problemsOf } from '../photometry/outcome';
import { EXACT_FALL, HOURS, NOTED_FALL, SLOW_FALL } from '../references/ageing';
import { amount } from '../tools/amount';

const pointsOf = (outputs: readonly number[], hours: readonly number[] = HOURS): AgeingPoint[] =>
  outputs.map((output, i) => ({ hours: hours[i]!, output }));
const falling = (start: number, rate: number, hours: readonly number[] = HOURS) =>
  pointsOf(
    hours.map((t) => start * Math.exp(-rate * t)),
    hours,
  );
const fitOf = (points: readonly AgeingPoint[]) => goodOf(fitAgeing(points));
const NOTED = fitOf(pointsOf(NOTED_FALL.outputs));
/** Relative values: what the unit gave when new is 1. */
const NEW = (fit: AgeingFit) => goodOf(initialOf(fit, 1));

describe('the fit', () => {
  it('of exact points is their own law (B 1.01, α 2·10⁻⁵), and the points are those printed', () => {
    const points = falling(EXACT_FALL.start, EXACT_FALL.rate);
    points.forEach(({ output }, i) => {
      expectPrinted(output, EXACT_FALL.printed[i]!);
    });
    const fit = fitOf(points);
    expectPrinted(fit.start, '1.01000000000');
    expectPrinted(fit.rate, '0.000020000000000');
    expect(fit.sd).toBeLessThan(1e-12);
  });

  it('of noted points: B 1.00998665, α 2.00014755·10⁻⁵ (scipy 1.17.1)', () => {
    expectPrinted(NOTED.start, NOTED_FALL.start);
    expectPrinted(NOTED.rate, NOTED_FALL.rate);
  });

  it('standard errors (numpy least squares): s 2.7658·10⁻⁴, u(α) 6.6114·10⁻⁸, u(B) 2.6005·10⁻⁴, ν 4', () => {
    const { sd, uRate, uStart, dof } = fitOf(pointsOf(NOTED_FALL.outputs));
    expectPrinted(sd, '0.00027657581146');
    expectPrinted(uRate, '0.0000000661142645');
    expectPrinted(uStart, '0.00026004941');
    expect(dof).toBe(4);
  });

  it('does not mind the order, and takes several measurements at one hour', () => {
    const points = [...pointsOf(NOTED_FALL.outputs), { hours: 3000, output: 0.9515 }];
    const fit = fitOf(points);
    expect(fitOf([...points].reverse())).toEqual({ ...fit, points: expect.anything() });
    expect(fit.points.map(({ hours }) => hours)).toEqual([1000, 2000, 3000, 3000, 4000, 5000, 6000]);
    expect([fit.firstHours, fit.lastHours]).toEqual([1000, 6000]);
  });

  it('finds any law again, in any unit of light', () => {
    const law = fc.record({
      start: fc.double({ min: 0.1, max: 1e5, noNaN: true }),
      rate: fc.double({ min: -1e-4, max: 1e-3, noNaN: true }),
    });
    const hours = fc.uniqueArray(fc.integer({ min: 0, max: 20_000 }), { minLength: 3, maxLength: 12 });
    fc.assert(
      fc.property(law, hours, ({ start, rate }, at) => {
        const fit = fitOf(falling(start, rate, at));
        const span = fit.lastHours - fit.firstHours;
        expect(Math.abs(fit.rate - rate) * span).toBeLessThan(1e-9);
        expect(fittedOutput(fit, at[0]!) / (start * Math.exp(-rate * at[0]!))).toBeCloseTo(1, 8);
      }),
    );
  });

  it.each([
    ['two points', pointsOf([1, 0.9]), 'missing', /at least 3 measurements; there are 2/],
    ['one point', pointsOf([1]), 'missing', /there is 1/],
    [
      'all at one hour',
      pointsOf([1, 0.9, 0.8], [500, 500, 500]),
      'not-defined',
      /every measurement is at 500 h/,
    ],
    [
      'no light',
      pointsOf([1, 0, 0.8]),
      'out-of-bounds',
      /light output of measurement 2 must be greater than 0/,
    ],
    ['negative hours', pointsOf([1, 0.9, 0.8], [-1, 0, 1]), 'negative', /hours of measurement 1/],
    ['not a number', pointsOf([1, Number.NaN, 0.8]), 'not-a-number', /measurement 2 must be a finite number/],
  ] as const)('refuses %s', (_, points, code, message) => {
    const [problem] = problemsOf(fitAgeing(points));
    expect(problem!.code).toBe(code);
    expect(problem!.message).toMatch(message);
  });
});

describe('hours to a part of the initial light output', () => {
  it('B 1.01, α 2·10⁻⁵: L70 18 331.264, L50 35 154.876 (by arithmetic)', () => {
    const fit = fitOf(falling(EXACT_FALL.start, EXACT_FALL.rate));
    expectPrinted(goodOf(hoursToPart(fit, NEW(fit), 0.7)).hours!, EXACT_FALL.l70);
    expectPrinted(goodOf(hoursToPart(fit, NEW(fit), 0.5)).hours!, EXACT_FALL.l50);
  });
  it('B 1, α 10⁻⁵: L70 35 667.494 (by arithmetic)', () => {
    const fit = fitOf(falling(SLOW_FALL.start, SLOW_FALL.rate));
    expectPrinted(goodOf(hoursToPart(fit, NEW(fit), 0.7)).hours!, SLOW_FALL.l70);
  });
  it('noted points: L70 18 329.25, L50 35 151.62 (scipy 1.17.1)', () => {
    expectPrinted(goodOf(hoursToPart(NOTED, NEW(NOTED), 0.7)).hours!, NOTED_FALL.l70);
    expectPrinted(goodOf(hoursToPart(NOTED, NEW(NOTED), 0.5)).hours!, NOTED_FALL.l50);
  });

  // Roots of ŷ ± t·u(ŷ) = ln part by scipy 1.17.1 (numpy lstsq, stats.t.ppf, optimize.brentq); the second upper end is below the cap.
  it.each([
    [0.7, '18193.4938', '18467.5054'],
    [0.5, '34863.3590', '35445.2157'],
  ])('interval at 95 %% for %d: %s to %s (scipy)', (part, lower, upper) => {
    const { interval } = goodOf(hoursToPart(NOTED, NEW(NOTED), part, 0.95));
    expectPrinted(interval!.lower, lower);
    expectPrinted(interval!.upper!, upper);
  });

  it('initial is the value stated for hour 0, or else the first measured, a mean where there are several', () => {
    const points = [...falling(1000, 1e-5, [100, 2000, 4000]), { hours: 100, output: 1001 }];
    const fit = fitOf(points);
    expect(goodOf(initialOf(fit, 1010))).toEqual({ output: 1010, hours: 0, kind: 'stated' });
    const first = goodOf(initialOf(fit));
    expect([first.hours, first.kind]).toEqual([100, 'first measured']);
    expectPrinted(first.output, '1000.00025'); // (1000·e^−0.001 + 1001) ÷ 2 = (999.0005 + 1001) ÷ 2
    expect(problemsOf(initialOf(fit, 0))[0]!.where).toBe('initial light output');
  });
});

describe('no further than 6 × the observed hours', () => {
  const fit = fitOf(falling(1, 1e-5));
  it('L50 of a slow fall, ln 2 ÷ 10⁻⁵ = 69 315 h, lies beyond 6 × 6000 h', () => {
    const found = goodOf(hoursToPart(fit, NEW(fit), 0.5));
    expect(found).toMatchObject({ state: 'beyond the cap', capped: true, hours: 36_000, cap: 36_000 });
  });
  it('counts from the first measurement where the value when new is not known: 1000 + 6 × 5000 h', () => {
    const found = goodOf(hoursToPart(fit, goodOf(initialOf(fit)), 0.5));
    expect(found).toMatchObject({ capped: true, hours: 31_000, cap: 31_000 });
  });
  it('never leaves an interval beyond it', () => {
    const scatter = fc.array(fc.double({ min: 0.98, max: 1.02, noNaN: true }), {
      minLength: 6,
      maxLength: 6,
    });
    fc.assert(
      fc.property(
        scatter,
        fc.double({ min: 1e-6, max: 1e-4, noNaN: true }),
        fc.double({ min: 0.3, max: 0.95, noNaN: true }),
        (noise, rate, part) => {
          const noisy = fitOf(
            falling(1, rate).map(({ hours, output }, i) => ({ hours, output: output * noise[i]! })),
          );
          const { cap, hours, interval, state, capped } = goodOf(hoursToPart(noisy, NEW(noisy), part));
          if (hours !== undefined) {
            expect(hours).toBeLessThanOrEqual(cap);
            expect(hours).toBeGreaterThanOrEqual(0);
          }
          expect(capped).toBe(state === 'beyond the cap');
          if (interval && hours !== undefined) {
            expect(interval.lower).toBeLessThanOrEqual(hours);
            if (interval.upper !== undefined) expect(interval.upper).toBeGreaterThanOrEqual(hours);
            expect(interval.upper ?? cap).toBeLessThanOrEqual(cap);
          }
        },
      ),
    );
  });
});

describe('the interval', () => {
  it('ends where the level lies k standard uncertainties off the line', () => {
    const k = tQuantile(0.975, NOTED.dof);
    for (const part of [0.95, 0.8, 0.7]) {
      const { interval } = goodOf(hoursToPart(NOTED, NEW(NOTED), part, 0.95));
      for (const [t, side] of [
        [interval!.lower, -1],
        [interval!.upper!, 1],
      ] as const) {
        const { value, u } = predict(NOTED.line, t);
        expect(value + side * k * u).toBeCloseTo(Math.log(part), 10);
      }
    }
  });
  it('is a point for points without scatter', () => {
    const fit = fitOf(falling(1000, 1e-4, [0, 1000, 2000, 3000]));
    const { hours, interval } = goodOf(hoursTo(fit, goodOf(initialOf(fit)), 500));
    expect(interval!.lower / hours!).toBeCloseTo(1, 6);
    expect(interval!.upper! / hours!).toBeCloseTo(1, 6);
  });
  it('is open above where the fall is not certain', () => {
    // 1 % scatter hides a fall of 1 %.
    const fit = fitOf(pointsOf([1000, 1008, 985, 1003, 990], [0, 500, 1000, 1500, 2000]));
    expect(fit.rate).toBeGreaterThan(0);
    const { interval } = goodOf(hoursTo(fit, goodOf(initialOf(fit)), 900));
    expect(interval).toBeDefined();
    expect(interval!.upper).toBeUndefined();
    expect(interval!.lower).toBeGreaterThan(fit.lastHours);
  });
  it('widens with the level', () => {
    const widths = [0.5, 0.9, 0.99].map((level) => {
      const { interval } = goodOf(hoursToPart(NOTED, NEW(NOTED), 0.7, level));
      return interval!.upper! - interval!.lower;
    });
    expect(widths).toEqual([...widths].sort((a, b) => a - b));
    expect(problemsOf(hoursToPart(NOTED, NEW(NOTED), 0.7, 1))[0]!.where).toBe('level');
  });
  it('holds the true hours about as often as it says: 95 % of 400 made-up units, ± 4 standard deviations', () => {
    // Congruential generator of Numerical Recipes (from memory), twelve of it for a normal: the seed is fixed.
    let state = 12345;
    const uniform = () => {
      state = (Math.imul(1664525, state) + 1013904223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    const normal = () => Array.from({ length: 12 }, uniform).reduce((sum, x) => sum + x, -6);
    const truth = Math.log(1 / 0.8) / 4e-5;
    let covered = 0;
    for (let unit = 0; unit < 400; unit++) {
      const points = falling(1, 4e-5).map(({ hours, output }) => ({
        hours,
        output: output * Math.exp(0.005 * normal()),
      }));
      const fit = fitOf(points);
      const { interval } = goodOf(hoursToPart(fit, NEW(fit), 0.8, 0.95));
      if (interval && interval.lower <= truth && truth <= (interval.upper ?? Number.POSITIVE_INFINITY))
        covered++;
    }
    expect(Math.abs(covered / 400 - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / 400));
  });
});

describe('a part of the first measurement, which is in doubt as every other point is', () => {
  const SERIES: readonly (readonly [name: string, hours: readonly number[], rate: number])[] = [
    ['six over 5000 h', [0, 1000, 2000, 3000, 4000, 5000], 4e-5],
    ['new, then 6000 h to 10 000 h', [0, 6000, 7000, 8000, 9000, 10_000], 3e-5],
    ['three', [0, 2000, 4000], 6e-5],
    ['from 1000 h on', [1000, 2000, 3000, 4000, 5000, 6000], 4e-5],
    ['two at first', [0, 0, 1500, 3000, 4500], 5e-5],
  ];
  it.each(SERIES)(
    '%s: the interval at 95.45 %% holds the true hours at least 94 times of 100',
    (_, hours, rate) => {
      // Park and Miller's generator (from memory) and Box and Muller's normal numbers: the seed is fixed.
      let state = 20_261;
      const uniform = () => {
        state = (state * 16_807) % 2_147_483_647;
        return state / 2_147_483_647;
      };
      const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
      const truth = hours[0]! + Math.log(1 / 0.7) / rate;
      const units = amount(1000, 20_000);
      let covered = 0;
      for (let unit = 0; unit < units; unit++) {
        const fit = fitOf(
          hours.map((at) => ({ hours: at, output: 2500 * Math.exp(0.005 * normal() - rate * at) })),
        );
        const { interval } = goodOf(hoursToPart(fit, goodOf(initialOf(fit)), 0.7, 0.9545));
        // No interval: nothing is claimed, so nothing is missed.
        if (!interval || (interval.lower <= truth && truth <= (interval.upper ?? Number.POSITIVE_INFINITY)))
          covered++;
      }
      const chance = 3 * Math.sqrt((0.9545 * 0.0455) / units);
      expect(covered / units).toBeGreaterThan(Math.min(0.94, 0.9545 - chance));
      expect(covered / units).toBeLessThan(0.9545 + chance);
    },
  );
});

describe('the ends of that interval, by the part that each point has in the line less its first point', () => {
  // Least squares: ŷ(t) = Σ (1 ÷ n + (t − mean)·(tᵢ − mean) ÷ Σ(t − mean)²)·yᵢ; less the mean of the m first ones,
  // 1 ÷ m off each of those; the variance is s² times the sum of the squares (by hand).
  it.each([
    [
      [0, 1000, 2000],
      [1000, 930, 875],
    ],
    [
      [500, 1000, 3000, 6000],
      [1010, 985, 930, 840],
    ],
    [
      [200, 200, 1500, 3000, 4500],
      [1000, 1004, 950, 905, 860],
    ],
  ])('hours %j, lumens %j', (hours, outputs) => {
    const fit = fitOf(pointsOf(outputs, hours));
    const initial = goodOf(initialOf(fit));
    const [n, k] = [hours.length, tQuantile(0.75, fit.dof)];
    const middle = hours.reduce((sum, t) => sum + t, 0) / n;
    const spread = hours.reduce((sum, t) => sum + (t - middle) ** 2, 0);
    const firsts = hours.filter((t) => t === hours[0]).length;
    const { interval } = goodOf(hoursToPart(fit, initial, 0.7, 0.5));
    for (const t of [interval!.lower, interval!.upper!]) {
      const parts = hours.map(
        (at) => 1 / n + ((t - middle) * (at - middle)) / spread - (at === hours[0] ? 1 / firsts : 0),
      );
      const u = fit.sd * Math.sqrt(parts.reduce((sum, part) => sum + part ** 2, 0));
      const off = predict(fit.line, t).value - Math.log(0.7 * initial.output);
      expect(Math.abs(off) / (k * u)).toBeCloseTo(1, 8);
    }
  });

  it('where the first point is exact, the line alone is in doubt', () => {
    const fit = fitOf(pointsOf([1000, 930, 875], [0, 1000, 2000]));
    const { interval } = goodOf(hoursToPart(fit, goodOf(initialOf(fit)), 0.7, 0.5, 'exact'));
    const { value, u } = predict(fit.line, interval!.lower);
    expect(Math.abs(value - Math.log(700)) / u).toBeCloseTo(tQuantile(0.75, 1), 8);
  });

  it('points without any scatter leave no doubt: halved each hour, a quarter is left after two', () => {
    const fit = fitOf(pointsOf([4, 2, 1], [0, 1, 2]));
    expect(fit.sd).toBe(0);
    const { hours, interval } = goodOf(hoursToPart(fit, goodOf(initialOf(fit)), 0.25));
    expect(hours).toBeCloseTo(2, 12);
    expect(interval!.lower).toBeCloseTo(2, 12);
    expect(interval!.upper).toBeCloseTo(2, 12);
  });
});

describe('states', () => {
  /** ln Φ = 6 − t ÷ 1024, without doubt, measured until 1024 h: in binary numbers all of it is exact. */
  const EXACT: AgeingFit = {
    ...NOTED,
    rate: 1 / 1024,
    firstHours: 0,
    lastHours: 1024,
    line: { ...NOTED.line, origin: 0, intercept: 6, slope: -1 / 1024, uIntercept: 0, uSlope: 0 },
  };
  const when = (lnTarget: number) =>
    goodOf(hoursTo(EXACT, { output: Math.exp(6), hours: 0, kind: 'stated' }, Math.exp(lnTarget)));
  const base = ({ cap, level }: HoursTo) => ({ cap, level });
  it('at the last measurement is reached, after it is ahead', () => {
    expect(when(5)).toMatchObject({ state: 'reached', hours: 1024 });
    expect(when(4)).toMatchObject({ state: 'ahead', hours: 2048, capped: false });
  });
  it('6 × 1024 h are still told, with their interval; later ones are not', () => {
    const at = { hours: 6144, cap: 6144 };
    expect(when(0)).toMatchObject({
      ...at,
      state: 'ahead',
      capped: false,
      interval: { lower: 6144, upper: 6144 },
    });
    const beyond = when(-1);
    expect(beyond).toMatchObject({ ...at, state: 'beyond the cap', capped: true });
    expect(beyond.interval).toStrictEqual({ lower: 6144 });
  });
  it('a level amid scattered points has no interval: the fall may be behind or never come', () => {
    const fit = fitOf(pointsOf([1000, 1008, 985, 1003, 990], [0, 500, 1000, 1500, 2000]));
    const found = goodOf(hoursTo(fit, goodOf(initialOf(fit, 1000)), fittedOutput(fit, 1000)));
    expect(found.hours).toBeCloseTo(1000, 6);
    expect(found).not.toHaveProperty('interval');
  });
  it('no fall seen: steady or brighter', () => {
    for (const outputs of [
      [1000, 1000, 1000],
      [1000, 1010, 1020],
    ]) {
      const fit = fitOf(pointsOf(outputs));
      const found = goodOf(hoursToPart(fit, goodOf(initialOf(fit)), 0.7));
      expect(found.state).toBe('no fall seen');
      expect(found.hours).toBeUndefined();
      expect(found.capped).toBe(false);
    }
  });
  it('reached: already below at the last measurement', () => {
    const fit = fitOf(falling(1000, 1e-4, [0, 3000, 6000]));
    const found = goodOf(hoursTo(fit, goodOf(initialOf(fit)), 700));
    expect(found.state).toBe('reached');
    expectPrinted(found.hours!, '3566.749439'); // ln(1 ÷ 0.7) ÷ 10⁻⁴
  });
  it.each([
    ['brighter each time, by the fit 810 lm at last', [800, 805, 810], 900],
    ['steady', [800, 800, 800], 900],
    ['steady at what is asked: ln 800 three times, divided by three', [800, 800, 800], 800],
  ])('reached without a fall reads 0: %s', (_, outputs, target) => {
    const fit = fitOf(pointsOf(outputs, [0, 500, 1000]));
    const found = goodOf(hoursTo(fit, goodOf(initialOf(fit)), target));
    expect(found).toStrictEqual({ ...base(found), target, state: 'reached', hours: 0, capped: false });
  });
  // Three points y: slope (y₃ − y₁) ÷ 1000 h, s = |y₁ − 2·y₂ + y₃| ÷ √6; Student's t of one degree of freedom is
  // tan(π·0.9545 ÷ 2) = 13.968 (Cauchy). By hand in thousands of hours from the mean, 500 h.
  it.each<readonly [string, number[], number, number | undefined]>([
    // At 1000 h ln 1.00494 − ln 0.98 = 0.0251 above, k·u = 13.968 · 0.03005 ÷ √6 · √(1/3 + 1/2) = 0.156.
    ['within the band at last: nothing is told', [1000, 990, 1010], 980, undefined],
    // (0.051793 + 0.00049988·d)² = 0.0049355² + 0.012089²·d² has d = 4.450 in front.
    ['the rise is not certain: 4950 h', [1000, 1001, 1000.5], 950, 4950],
    // 1.898·10⁻³ a step of 1000 h, k·u of it 13.968 · 1.008·10⁻⁴ ÷ √6 · √2 = 8.1·10⁻⁴: a rise, never.
    ['a certain rise: 6 × 1000 h', [1000, 1001, 1001.9], 990, 6000],
  ])('no fall seen, but the band may come down: %s', (_, outputs, target, lower) => {
    const fit = fitOf(pointsOf(outputs, [0, 500, 1000]));
    const found = goodOf(hoursTo(fit, goodOf(initialOf(fit)), target, 0.9545));
    expect(found.state).toBe('no fall seen');
    expect(found.hours).toBeUndefined();
    if (lower === undefined) expect(found).not.toHaveProperty('interval');
    else expect(Math.abs(found.interval!.lower - lower)).toBeLessThan(1);
    expect(found.interval?.upper).toBeUndefined();
  });
  it('reached before the first hour reads 0', () => {
    const fit = fitOf(falling(1000, 1e-4, [0, 3000, 6000]));
    expect(goodOf(hoursTo(fit, goodOf(initialOf(fit)), 1200))).toMatchObject({ state: 'reached', hours: 0 });
  });
  it('refuses a target of nothing and a part of all', () => {
    expect(problemsOf(hoursTo(NOTED, NEW(NOTED), 0))[0]!.where).toBe('light output to fall to');
    expect(problemsOf(hoursToPart(NOTED, NEW(NOTED), 1))[0]!.where).toBe('part of the initial light output');
  });
});

describe('the next measurement', () => {
  const fit = fitOf(falling(1000, 1e-4, [0, 1000, 2000]));
  const toNeed = (target: number) => goodOf(hoursTo(fit, goodOf(initialOf(fit)), target));
  const use = { hoursPerYear: 2000, lastDate: '2024-03-01' };

  it('half-way to the need: ln(1 ÷ 0.7) ÷ 10⁻⁴ = 3566.7 h, 783.4 h from now, 143 days at 2000 h a year', () => {
    const next = goodOf(nextMeasurement(fit, toNeed(700), use));
    expect(next.hours).toBeCloseTo(2783.37, 1);
    expect(next.isDue).toBe(false);
    // 783.37 ÷ 2000 × 365.25 = 143.06 days; 2024-03-01 + 143 days (30 of March, 30, 31, 30, then 22 of July).
    expect(next.date).toBe('2024-07-22');
  });
  it('at once where the need is no longer met', () => {
    expect(goodOf(nextMeasurement(fit, toNeed(900), use))).toMatchObject({
      isDue: true,
      hours: 2000,
      date: '2024-03-01',
    });
  });
  it('no sooner than 100 h, no later than a year', () => {
    expect(goodOf(nextMeasurement(fit, toNeed(1000 * Math.exp(-0.205)), use)).hours).toBe(2100);
    expect(goodOf(nextMeasurement(fit, toNeed(700), { hoursPerYear: 300 })).hours).toBe(2300);
  });

  // Last measured at 2000 h, used 2000 h a year; the rule by hand. The words are ours (regression).
  it.each<
    readonly [
      HoursTo['state'],
      hours: number | undefined,
      lower: number | undefined,
      gap: number,
      why: RegExp,
    ]
  >([
    ['reached', 1900, 1800, 0, /^By the fit the light is no more than what is needed\.$/],
    ['reached', 2000, undefined, 0, /^By the fit/],
    ['no fall seen', undefined, 6000, 2000, /^No fall is seen yet: measure again after a year of use\.$/],
    ['no fall seen', undefined, 5998, 1999, /^Half-way/],
    ['no fall seen', undefined, 2200, 100, /^The need is close/],
    ['no fall seen', undefined, undefined, 0, /^The measurements scatter too much to tell whether/],
    ['ahead', 2600, 1999, 0, /^Within the interval the light may already have fallen to what is needed\.$/],
    ['ahead', 2600, 2000, 0, /^Within the interval/],
    ['ahead', 2600, 2001, 100, /^The need is close: measure again after 100 hours\.$/],
    ['ahead', 2600, 2200, 100, /^The need is close/],
    ['ahead', 2600, 2202, 101, /^Half-way to the earliest hour at which the need may no longer be met\.$/],
    // No lower end: on which side of the need the light was last is not known.
    [
      'ahead',
      2202,
      undefined,
      0,
      /^The measurements scatter too much to tell whether the light is still more/,
    ],
    ['ahead', 7000, 5998, 1999, /^Half-way/],
    ['ahead', 7000, 6000, 2000, /^The need is far off: measure again after a year of use\.$/],
    ['beyond the cap', 12_000, 12_000, 2000, /^The need is far off/],
    ['beyond the cap', 12_000, undefined, 0, /^The measurements scatter/],
  ])('%s, at %s, from %s on: %d h', (state, hours, lower, gap, why) => {
    const capped = state === 'beyond the cap';
    const to = {
      ...{ state, capped, target: 700, cap: 12_000, level: 0.95 },
      ...(hours === undefined ? {} : { hours }),
      ...(lower === undefined ? {} : { interval: { lower } }),
    };
    expect(goodOf(nextMeasurement(fit, to, { hoursPerYear: 2000 }))).toStrictEqual({
      hours: 2000 + gap,
      isDue: gap === 0,
      why: expect.stringMatching(why),
    });
  });
  it('has no date after the year 9999', () => {
    const dateFrom = (lastDate: string) =>
      goodOf(nextMeasurement(fit, toNeed(600), { hoursPerYear: 365.25 * 1000, lastDate })).date;
    // ln(1 ÷ 0.6) ÷ 10⁻⁴ = 5108 h, 1554 h from now at 1000 h a day: one day.
    expect(dateFrom('9999-12-30')).toBe('9999-12-31');
    expect(dateFrom('9999-12-31')).toBeUndefined();
  });
  it('after a year where no fall is seen', () => {
    const steady = fitOf(pointsOf([1000, 1000, 1000]));
    const target = goodOf(hoursTo(steady, goodOf(initialOf(steady)), 700));
    const next = goodOf(nextMeasurement(steady, target, { hoursPerYear: 1500, lastDate: '2023-02-28' }));
    expect(next.hours).toBe(4500);
    expect(next.date).toBe('2024-02-28'); // 365 whole days
  });
  it.each([
    ['gives too little and does not fall', [800, 805, 810], 900, /^By the fit the light is no more than/],
    ['scatters about what is needed', [1000, 960, 995], 975, /^The measurements scatter too much to tell/],
    ['is steady, scattered about what is needed', [1000, 990, 1010], 980, /^The measurements scatter/],
  ])('at once for a unit that %s', (_, outputs, target, why) => {
    const unit = fitOf(pointsOf(outputs, [0, 500, 1000]));
    const next = nextMeasurement(unit, goodOf(hoursTo(unit, goodOf(initialOf(unit)), target)), use);
    expect(goodOf(next)).toMatchObject({ isDue: true, hours: 1000, why: expect.stringMatching(why) });
  });
  it.each([
    ...['2024-02-30', '1.3.2024', '2024-3-1', 'soon', ''],
    ...['2024-03-01T00:00:00.000Z', '+012024-03-01'],
  ])('refuses "%s" for a day', (lastDate) => {
    expect(problemsOf(nextMeasurement(fit, toNeed(700), { ...use, lastDate }))).toMatchObject([
      {
        code: 'not-a-number',
        where: 'day of the last measurement',
        message: `The day of the last measurement must be written YYYY-MM-DD; it is "${lastDate}".`,
      },
    ]);
  });
  it('refuses no use at all', () => {
    expect(problemsOf(nextMeasurement(fit, toNeed(700), { hoursPerYear: 0 }))[0]!.where).toBe('hours a year');
  });
});
