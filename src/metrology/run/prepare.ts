import { at, mean } from '../../photometry/reading';
import { sampleVariance } from '../sample';
import { DIGIT } from './defaults';
import type { FieldInput, FieldName, MeterInput } from './input';

/** One field of light with its readings turned into corrected illuminances (lux), ambient still in them. */
export interface Field {
  readonly name: FieldName;
  /** Mean of each point's repeats. */
  readonly gross: readonly number[];
  /** Lux per number on the display, correction included, one a point. */
  readonly scale: readonly number[];
  readonly ranges: readonly number[];
  readonly correction: number;
  /** How often each point was read. */
  readonly counts: readonly number[];
  /** Pooled standard deviation of one reading, lux; undefined where nothing was read twice. */
  readonly sd?: number;
  readonly dof: number;
}

/** Readings of one point over its repeats. */
function pointReadings({ repeats }: FieldInput, point: number): number[] {
  return repeats.flatMap((grid) => grid[point] ?? []);
}

/** From a checked input. */
export function prepareField(name: FieldName, input: FieldInput, luxPerUnit: number): Field {
  const { range = 1, correction = 1 } = input;
  const points = input.repeats[0]!.map((_, i) => pointReadings(input, i));
  const ranges = points.map((_, i) => at(range, i));
  const scale = ranges.map((factor) => factor * luxPerUnit * correction);
  const dof = points.reduce((sum, readings) => sum + readings.length - 1, 0);
  const squares = points.reduce(
    (sum, readings, i) =>
      readings.length < 2 ? sum : sum + (readings.length - 1) * sampleVariance(readings) * scale[i]! ** 2,
    0,
  );
  return {
    name,
    gross: points.map((readings, i) => mean(readings) * scale[i]!),
    scale,
    ranges,
    correction,
    counts: points.map((readings) => readings.length),
    sd: dof > 0 ? Math.sqrt(squares / dof) : undefined,
    dof,
  };
}

/** Step of the display's last digit on a range, in numbers on the display. */
export function digitOn({ digit = DIGIT, digitByRange = [] }: MeterInput, range: number): number {
  return digitByRange.find((entry) => entry.range === range)?.digit ?? digit;
}
