import { divisor } from '../distribution';
import * as defaults from './defaults';
import type { FieldName, MeterInput, RunInput } from './input';
import type { FieldLayout } from './layout';
import type { List, Shape } from './list';
import { type Notes, rounded } from './notes';
import { digitOn, type Field, type Points } from './prepare';
import { wordsOf } from './words';

/** Components of the readings: digits a range; resolution and repeatability a point; spectral mismatch a field. */

/** One a range in use: an offset common to all readings taken in it. Returns their places by range. */
export function addDigits(
  list: List,
  meter: MeterInput,
  fields: readonly Points[],
  luxPerUnit: number,
  notes: Notes,
): ReadonlyMap<number, number> {
  const count = meter.digits ?? defaults.DIGITS;
  if (meter.digits === undefined) notes.assume('meter digits', `± ${count} digits`);
  if (meter.digit === undefined && !meter.digitByRange) {
    notes.assume('step of the display', `${defaults.DIGIT} on the display`);
  }
  const ranges = new Set<number>();
  for (const field of fields) for (const range of field.ranges) ranges.add(range);
  const places = new Map<number, number>();
  for (const range of [...ranges].sort((a, b) => a - b)) {
    const half = count * digitOn(meter, range) * range * luxPerUnit;
    const label = `Meter, digits, range × ${range}`;
    places.set(
      range,
      list.add(`digits:x${range}`, label, 0, half, 'lx', 'meter', 'every reading in this range'),
    );
  }
  return places;
}

/** Resolution, repeatability and spectral mismatch of one field. */
export function addReadings(
  list: List,
  field: Field,
  input: RunInput,
  digits: ReadonlyMap<number, number>,
  notes: Notes,
): Omit<FieldLayout, 'others'> {
  const points = addPoints(list, field, input.meter, digits, notes);
  const spectral = addSpectral(list, field.name, input[field.name]?.spectralHalf, notes);
  return { field, spectral, ...points };
}

/** Resolution and repeatability of readings of one kind. */
export function addPoints(
  list: List,
  points: Points,
  meter: MeterInput,
  digits: ReadonlyMap<number, number>,
  notes: Notes,
): Pick<FieldLayout, 'resolution' | 'repeatability' | 'digits'> {
  const { name, scale, ranges } = points;
  const words = wordsOf(name, scale.length);
  const resolution = list.components.length;
  for (let i = 0; i < scale.length; i++) {
    const { resolutionId, resolution: label } = words.points[i]!;
    const half = (digitOn(meter, ranges[i]!) * scale[i]!) / 2;
    list.add(resolutionId, label, 0, half, 'lx', 'reading', 'one reading', words.resolutionLine);
  }
  const repeatability = addRepeatability(list, points, notes);
  return { resolution, repeatability, digits: ranges.map((range) => digits.get(range)!) };
}

/** Type A: the field's pooled standard deviation of one reading ÷ √(how often the point was read). */
function addRepeatability(list: List, { name, sd, dof, counts, gross }: Points, notes: Notes): number {
  const words = wordsOf(name, counts.length);
  if (sd === undefined) {
    notes.assume(
      `repeatability of the ${name} readings`,
      `${100 * defaults.REPEATABILITY} % of each reading, because no point was read twice`,
    );
  }
  const shape: Shape = {
    distribution: 'normal',
    by: divisor('normal'),
    dof: sd === undefined ? 0.5 / defaults.REPEATABILITY_RELIABILITY ** 2 : dof,
    estimate: words.estimate,
  };
  const first = list.components.length;
  for (let i = 0; i < counts.length; i++) {
    const one = sd ?? defaults.REPEATABILITY * gross[i]!;
    const { repeatabilityId, repeatability: label } = words.points[i]!;
    const u = one / Math.sqrt(counts[i]!);
    list.add(repeatabilityId, label, 0, u, 'lx', 'reading', 'one reading', words.repeatabilityLine, shape);
  }
  return first;
}

export function addSpectral(list: List, name: FieldName, known: number | undefined, notes: Notes): number {
  const half = known ?? defaults.SPECTRAL[name];
  if (known === undefined) notes.assume(`spectral mismatch in ${name}`, `± ${rounded(100 * half)} %`);
  const { spectralId, spectral, spectralSharedBy } = wordsOf(name, 0);
  return list.add(spectralId, spectral, 1, half, '', 'spectrum', spectralSharedBy);
}
