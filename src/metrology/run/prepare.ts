import { at, mean } from '../../photometry/reading';
import { squaredDeviations } from '../sample';
import { DIGIT } from './defaults';
import type { FieldInput, FieldName, MeterInput } from './input';

/** What bears readings: a field, or the tiles of one kind on the checkerboard. */
export type PointsName = FieldName | 'white tile' | 'black tile';

/** Readings of one kind of light turned into corrected illuminances (lux), ambient still in them. */
export interface Points {
  readonly name: PointsName;
  /** Mean of each point's repeats. */
  readonly gross: readonly number[];
  /** Lux per number on the display, correction included, one a point. */
  readonly scale: readonly number[];
  readonly ranges: readonly number[];
  readonly correction: number;
  /** What of it is for the projector's light alone: as much too large or too small ambient light stands in the readings. */
  readonly light: number;
  /** How often each point was read. */
  readonly counts: readonly number[];
  /** Pooled standard deviation of one reading, lux; undefined where nothing was read twice. */
  readonly sd?: number;
  readonly dof: number;
}
export interface Field extends Points {
  readonly name: FieldName;
}

/** From a checked input. */
export function prepareField<N extends PointsName>(
  name: N,
  input: FieldInput,
  luxPerUnit: number,
): Points & { readonly name: N } {
  const { range = 1, correction = 1, light = 1, repeats } = input;
  const points = repeats[0]!.length;
  const field = {
    gross: [] as number[],
    scale: [] as number[],
    ranges: [] as number[],
    counts: [] as number[],
  };
  let dof = 0;
  let squares = 0;
  for (let i = 0; i < points; i++) {
    const factor = at(range, i);
    const lux = factor * luxPerUnit * correction;
    const readings: number[] = [];
    for (const grid of repeats) if (grid[i] !== null) readings.push(grid[i]!);
    dof += readings.length - 1;
    squares += squaredDeviations(readings) * lux * lux;
    field.gross.push(mean(readings) * lux);
    field.scale.push(lux);
    field.ranges.push(factor);
    field.counts.push(readings.length);
  }
  return { name, correction, light, dof, sd: dof > 0 ? Math.sqrt(squares / dof) : undefined, ...field };
}

/** Step of the display's last digit on a range, in numbers on the display. */
export function digitOn({ digit = DIGIT, digitByRange = [] }: MeterInput, range: number): number {
  return digitByRange.find((entry) => entry.range === range)?.digit ?? digit;
}
