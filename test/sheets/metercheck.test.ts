import { describe, expect, it } from 'vitest';
import { calculateBook } from '../../src/audit/formula/calculate';
import { cellsOf } from '../../src/sheets/address';
import type { BookSheet } from '../../src/sheets/book';
import type { Plan } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { writeXlsx } from '../../src/xlsx/write';
import { METER_CHECK_READINGS, meterCheckOf } from '../audit/examples';
import { meterCheck } from '../metrology/metercheck';
import { amount } from '../tools/amount';
import { recalculate } from '../tools/libreoffice';
import { checkByHand, randomCheck, studentTwoSided } from './metercheckcases';
import { rangeNamed } from './named';
import { random } from './randomrun';

const RESULTS = [
  'Repeatability',
  'Placing',
  'RangesLimit',
  'DistancesLimit',
  'SumsLimit',
  'Linearity',
] as const;
type Result = (typeof RESULTS)[number];

const at = ({ cells }: BookSheet, plan: Plan, name: string) => cells[rangeNamed(plan, name)]?.value;

describe('what is found', () => {
  it('Student’s quantile by integration is that of the tables', () => {
    // JCGM 100:2008, table G.2: p = 95.45 %.
    for (const [nu, t] of [
      [1, 13.97],
      [2, 4.53],
      [4, 2.87],
      [9, 2.32],
      [20, 2.13],
      [1e6, 2],
    ] as const)
      expect(studentTwoSided(0.9545, nu)).toBeCloseTo(t, 2);
  });

  it('LibreOffice, the functions and another hand agree on random meters', async () => {
    const checks = Array.from({ length: amount(12, 120) }, (_, i) => randomCheck(i));
    const plans = checks.map((readings, i) => meterCheckOf(readings, `check${i}`));
    const [recalculated] = await recalculate([await writeXlsx(bookOf(plans), { cachedValues: false })]);
    // A book by itself has the results of functions as the add-in would give them.
    const calculated = calculateBook(bookOf(plans));
    plans.forEach((plan, i) => {
      const wanted = checkByHand(checks[i]!);
      const sheet = calculated.sheets[i]!;
      for (const name of RESULTS) {
        const want = wanted[name];
        const near = (came: unknown, part: number, who: string) =>
          expect(
            Math.abs((came as number) / want - 1),
            `${who}, check ${i}, ${name}: ${came} for ${want}`,
          ).toBeLessThan(part);
        near(at(recalculated!.sheets[i]!, plan, `${name}Plain`), 1e-8, 'LibreOffice');
        near(at(sheet, plan, name), 1e-8, 'function');
        const [theirs, own] = [at(recalculated!.sheets[i]!, plan, `${name}Plain`), at(sheet, plan, name)];
        expect(Math.abs((theirs as number) / (own as number) - 1), `${name} ${i}`).toBeLessThan(
          name === 'Repeatability' || name === 'Placing' ? 1e-12 : 1e-9,
        );
      }
    });
  }, 240_000);

  it('a reading that is missing leaves what rests on it without a number', () => {
    const parts: Readonly<Record<string, readonly Result[]>> = {
      RepeatReadings: ['Repeatability'],
      PlacedReadings: ['Placing'],
      ...Object.fromEntries(
        ['LowReadings', 'HighReadings', 'LowRange', 'HighRange'].map((name) => [
          name,
          ['RangesLimit', 'Linearity'],
        ]),
      ),
      ...Object.fromEntries(
        [
          'NearReadings',
          'NearHidden',
          'FarReadings',
          'FarHidden',
          'NearRange',
          'FarRange',
          'NearDistance',
          'FarDistance',
          'DistanceHalf',
          'SourceDiameter',
          'SensorDiameter',
        ].map((name) => [name, ['DistancesLimit']]),
      ),
      ...Object.fromEntries(
        [
          'DarkReadings',
          'FirstReadings',
          'SecondReadings',
          'ThirdReadings',
          'AllReadings',
          'PartsRange',
          'AllRange',
        ].map((name) => [name, ['SumsLimit']]),
      ),
    };
    const names = Object.keys(parts);
    const draw = random(77);
    for (let i = 0; i < amount(40, 1000); i++) {
      const plan = meterCheckOf(randomCheck(i), 'gap1');
      const name = names[i % names.length]!;
      const cells = cellsOf(rangeNamed(plan, name));
      const gap = cells[Math.floor(draw() * cells.length)]!;
      const { value: _, ...empty } = plan.cells[gap]!;
      const filled = { ...plan, cells: { ...plan.cells, [gap]: empty } };
      const [sheet] = calculateBook(bookOf([filled])).sheets;
      for (const result of RESULTS) {
        const isNumber = !parts[name]!.includes(result);
        for (const which of [result, `${result}Plain`]) {
          expect(typeof at(sheet!, plan, which) === 'number', `${name} ${gap}: ${which}`).toBe(isNumber);
        }
      }
    }
  });

  it('without two ranges, or without any levels, there is no linearity', () => {
    const without = (drop: RegExp) =>
      Object.fromEntries(Object.entries(METER_CHECK_READINGS).filter(([name]) => !drop.test(name)));
    const linearity = (readings: Readonly<Record<string, readonly number[]>>) => {
      const plan = meterCheckOf(readings);
      return at(calculateBook(bookOf([plan])).sheets[0]!, plan, 'LinearityPlain');
    };
    expect(linearity(METER_CHECK_READINGS)).toBeGreaterThan(0);
    expect(linearity(without(/^Low/))).toBe('needs part 3');
    expect(linearity(without(/^(Near|All)Readings/))).toBe('needs part 4 or 5');
    expect(linearity(without(/^AllReadings/))).toBeGreaterThan(0);
    expect(linearity(without(/^NearReadings/))).toBeGreaterThan(0);
  });
});

describe('the lamp’s size', () => {
  /** Coaxial discs, exactly: F = ½ · (X − √(X² − 4·(r ÷ R)²)), X = 1 + (r² + d²) ÷ R² (any handbook of radiative transfer). */
  const exact = (R: number, r: number, d: number) => {
    const [a, b] = [R / d, r / d];
    const x = 1 + (1 + b * b) / (a * a);
    // The smaller root by the larger one: what is left of a difference of like numbers is no result.
    return (2 * (b / a) ** 2) / (x + Math.sqrt(x * x - 4 * (b / a) ** 2)) / (r * r);
  };

  it('d² + R² + r² is that of a disc to 1 part in 10⁴ from five diameters on', () => {
    for (const R of [0.005, 0.03, 0.06])
      for (const r of [0.003, 0.01])
        for (const times of [5, 10, 20]) {
          const d = times * 2 * Math.max(R, r);
          const product = exact(R, r, d) * (d * d + R * R + r * r);
          const before = exact(R, r, 2 * d) * (4 * d * d + R * R + r * r);
          expect(Math.abs(product / before - 1)).toBeLessThan(1e-4);
        }
  });

  it('the inverse square law alone is off by less than 0.3 % from ten diameters on', () => {
    const [R, r] = [0.03, 0.001];
    const d = 20 * R;
    const error = (exact(R, r, 2 * d) * 4 * d * d) / (exact(R, r, d) * d * d) - 1;
    expect(error).toBeGreaterThan(0.0015);
    expect(error).toBeLessThan(0.003);
  });

  it('a meter without an error shows none, whatever the lamp', () => {
    const [R, r] = [0.05, 0.01];
    const e = (d: number) => 1e5 * exact(R, r, d);
    const rounds = (value: number) => Array.from({ length: 5 }, () => value);
    const { distances } = meterCheck({
      digit: 1e-6,
      distances: {
        near: rounds(e(0.6)),
        far: rounds(e(1.2)),
        nearHidden: rounds(0),
        farHidden: rounds(0),
        nearRange: rounds(1),
        farRange: rounds(1),
        nearDistance: 0.6,
        farDistance: 1.2,
        distanceHalf: 0,
        source: R,
        sensor: r,
      },
    });
    expect(Math.abs(distances.ok ? distances.value.mean : 1)).toBeLessThan(1e-4);
  });
});
