import type { METER_CHECK_READINGS } from '../audit/examples';
import { random } from './randomrun';

/*
 * Meter checks of invented meters, and what comes of them by another hand: straight from the definitions, with sums
 * over lists and a Student quantile by integration. Nothing of the project's own formulas is used.
 */
export type CheckReadings = Record<keyof typeof METER_CHECK_READINGS, number[]> & {
  readonly LowRange: number[];
  readonly HighRange: number[];
  readonly NearRange: number[];
  readonly FarRange: number[];
  readonly PartsRange: number[];
};

const five = (make: (i: number) => number) => Array.from({ length: 5 }, (_, i) => make(i));
const ten = (make: (i: number) => number) => Array.from({ length: 10 }, (_, i) => make(i));

/** What a meter shows of invented lights: it rounds, bends at low levels and steps between its ranges. */
export function randomCheck(seed: number): CheckReadings {
  const draw = random(seed + 500);
  const bend = (draw() - 0.5) * 0.02;
  const stepUp = 1 + (draw() - 0.5) * 0.02;
  const shows = (lux: number, range: number) => {
    const bent = lux * (1 + bend * Math.log10(Math.max(lux, 1) / 500)) * (1 + (draw() - 0.5) * 0.004);
    return Math.round((bent * (range > 1 ? stepUp : 1)) / range);
  };
  const [near, far] = [0.6 + draw(), 1.9 + draw()];
  const [source, sensor] = [10 + Math.round(90 * draw()), 5 + Math.round(20 * draw())];
  const lamp = 600 + 2500 * draw();
  const at = (d: number) => lamp / (d * d + ((source / 2000) ** 2 + (sensor / 2000) ** 2));
  const parts = [300 + 200 * draw(), 700 + 500 * draw(), 100 + 60 * draw()];
  const dark = 4 * draw();
  const bright = 900 + 900 * draw();
  return {
    DistanceHalf: [Math.round(5 * draw())],
    NearDistance: [near],
    FarDistance: [far],
    SourceDiameter: [source],
    SensorDiameter: [sensor],
    RepeatReadings: ten(() => shows(bright, 1)),
    PlacedReadings: ten(() => shows(bright * (1 + (draw() - 0.5) * 0.03), 1)),
    LowReadings: five(() => shows(bright, 1)),
    HighReadings: five(() => shows(bright, 10)),
    LowRange: five(() => 1),
    HighRange: five(() => 10),
    NearReadings: five(() => shows(at(near) + dark, 1)),
    NearHidden: five(() => shows(dark, 1)),
    FarReadings: five(() => shows(at(far) + dark, 1)),
    FarHidden: five(() => shows(dark, 1)),
    NearRange: five(() => 1),
    FarRange: five(() => 1),
    DarkReadings: five(() => shows(dark, 1)),
    FirstReadings: five(() => shows(parts[0]! + dark, 1)),
    SecondReadings: five(() => shows(parts[1]! + dark, 1)),
    ThirdReadings: five(() => shows(parts[2]! + dark, 1)),
    AllReadings: five(() => shows(parts[0]! + parts[1]! + parts[2]! + dark, 10)),
    PartsRange: five(() => 1),
    AllRange: five(() => 10),
  };
}

const avg = (list: readonly number[]) => list.reduce((a, b) => a + b, 0) / list.length;
/** Two-pass, ÷ (n − 1). */
const sd = (list: readonly number[]) =>
  Math.sqrt(list.reduce((a, b) => a + (b - avg(list)) ** 2, 0) / (list.length - 1));

/** Student's two-sided quantile by Simpson's rule and bisection: the density has no need of its constant. */
export function studentTwoSided(level: number, nu: number): number {
  const density = (t: number) => (1 + (t * t) / nu) ** (-(nu + 1) / 2);
  const area = (to: number, n = 4000) => {
    const h = to / n;
    let sum = density(0) + density(to);
    for (let i = 1; i < n; i++) sum += (i % 2 ? 4 : 2) * density(i * h);
    return (sum * h) / 3;
  };
  // Beyond, by t = tan(x) · √ν: (1 + tan²)^(−(ν+1)/2) · √ν · sec² = √ν · cos^(ν−1).
  const steps = 20_000;
  const half = Math.PI / 2 / steps;
  let whole = 0;
  for (let i = 0; i <= steps; i++)
    whole += (i === 0 || i === steps ? 1 : i % 2 ? 4 : 2) * Math.cos(i * half) ** (nu - 1);
  whole *= (half / 3) * Math.sqrt(nu);
  let [low, high] = [0, 200];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (area(middle) < level * whole) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function limit(found: readonly number[], expected: readonly number[], half: number): number {
  const errors = found.map((value, i) => value / expected[i]! - 1);
  const a = sd(errors) ** 2 / errors.length;
  const b = half ** 2 / 3;
  // For infinite ν the normal quantile, 1.99998 to five places by any table of it: two-sided 95.45 %.
  const nu = a === 0 ? Number.POSITIVE_INFINITY : (a + b) ** 2 / (a ** 2 / (errors.length - 1));
  const k = studentTwoSided(0.9545, Math.min(1e6, Math.floor(nu * (1 + 1e-9))));
  return Math.abs(avg(errors)) + k * Math.sqrt(a + b);
}

const pairs = (a: readonly number[], b: readonly number[]) => a.map((value, i) => value * b[i]!);
const top = (list: readonly number[]) => Math.max(...list);
const rss = (...list: number[]) => Math.sqrt(list.reduce((a, b) => a + b * b, 0));

/** By the definitions that stand on the sheet; the step of the display is 1. */
export function checkByHand(r: CheckReadings) {
  const [low, high] = [pairs(r.LowReadings, r.LowRange), pairs(r.HighReadings, r.HighRange)];
  const ranges = limit(high, low, rss(top(r.LowRange) / 2 / avg(low), top(r.HighRange) / 2 / avg(high)));
  const [near, far] = [r.NearDistance[0]!, r.FarDistance[0]!];
  const [R, sensor] = [r.SourceDiameter[0]! / 2000, r.SensorDiameter[0]! / 2000];
  const extended = (d: number) => d * d + R * R + sensor * sensor;
  const e1 = r.NearReadings.map((value, i) => (value - r.NearHidden[i]!) * r.NearRange[i]!);
  const e2 = r.FarReadings.map((value, i) => (value - r.FarHidden[i]!) * r.FarRange[i]!);
  const tape = r.DistanceHalf[0]! / 1000;
  const distances = limit(
    e2.map((e) => e * extended(far)),
    e1.map((e) => e * extended(near)),
    rss(
      (Math.sqrt(2) * top(r.NearRange)) / 2 / avg(e1),
      (Math.sqrt(2) * top(r.FarRange)) / 2 / avg(e2),
      (2 * near * tape) / extended(near),
      (2 * far * tape) / extended(far),
      R * R * (1 / near ** 2 - 1 / far ** 2),
    ),
  );
  const sum = r.FirstReadings.map(
    (value, i) =>
      (value + r.SecondReadings[i]! + r.ThirdReadings[i]! - 3 * r.DarkReadings[i]!) * r.PartsRange[i]!,
  );
  const whole = r.AllReadings.map(
    (value, i) => value * r.AllRange[i]! - r.DarkReadings[i]! * r.PartsRange[i]!,
  );
  const p = top(r.PartsRange) / 2;
  const sums = limit(whole, sum, rss(top(r.AllRange) / 2, p, p, p, 2 * p) / avg(sum));
  return {
    Repeatability: sd(r.RepeatReadings) / avg(r.RepeatReadings),
    Placing: (sd(r.PlacedReadings) / avg(r.PlacedReadings)) * Math.sqrt(3) * Math.sqrt(9 / 7),
    RangesLimit: ranges,
    DistancesLimit: distances,
    SumsLimit: sums,
    Linearity: rss(ranges, top([distances, sums])),
  };
}
