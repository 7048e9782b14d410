import { mean } from '../../photometry/reading';
import { divisor } from '../distribution';
import * as defaults from './defaults';
import { type FieldName, type MeterInput, PRIMARIES, type RunInput } from './input';
import type { FieldLayout, Part } from './layout';
import type { List, Shape } from './list';
import { digitOn, type Field, type Points } from './prepare';
import { wordsOf } from './words';

/** Components of the readings: digits a range; resolution and repeatability a point; spectral mismatch a field. */

/** One a range in use: an offset common to all readings taken in it. Returns their places by range. */
export function addDigits(
  list: List,
  meter: MeterInput,
  fields: readonly { readonly ranges: readonly number[] }[],
  luxPerUnit: number,
): ReadonlyMap<number, number> {
  const count = meter.digits ?? defaults.DIGITS;
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
): Omit<FieldLayout, 'others' | 'spectral'> {
  const points = addPoints(list, field, input, digits);
  const linearity = addLinearity(list, field.name, input);
  return { field, linearity, ...points };
}

/** Resolution and repeatability of readings of one kind. */
export function addPoints(
  list: List,
  points: Points,
  { meter, placing: placed, repeatability: known }: Pick<RunInput, 'meter' | 'placing' | 'repeatability'>,
  digits: ReadonlyMap<number, number>,
): Pick<FieldLayout, 'resolution' | 'repeatability' | 'digits' | 'placing'> {
  const { name, scale, ranges } = points;
  const words = wordsOf(name, scale.length);
  const resolution = list.components.length;
  for (let i = 0; i < scale.length; i++) {
    const { resolutionId, resolution: label } = words.points[i]!;
    const half = (digitOn(meter, ranges[i]!) * scale[i]!) / 2;
    list.add(resolutionId, label, 0, half, 'lx', 'reading', 'one reading', words.resolutionLine);
  }
  const repeatability = addRepeatability(list, points, known);
  const placing = placed ? addPlacing(list, points, placed.half) : -1;
  return { resolution, repeatability, placing, digits: ranges.map((range) => digits.get(range)!) };
}

/** Type A: the field's pooled standard deviation of one reading ÷ √(how often the point was read). */
function addRepeatability(
  list: List,
  { name, sd, dof, counts, gross }: Points,
  known: RunInput['repeatability'],
): number {
  const words = wordsOf(name, counts.length);
  const part = known?.part ?? defaults.REPEATABILITY;
  const shape: Shape = {
    distribution: 'normal',
    by: divisor('normal'),
    dof: sd === undefined ? knownDof(known) : dof,
    estimate: words.estimate,
  };
  const first = list.components.length;
  for (let i = 0; i < counts.length; i++) {
    const one = sd ?? part * gross[i]!;
    const { repeatabilityId, repeatability: label } = words.points[i]!;
    const u = one / Math.sqrt(counts[i]!);
    list.add(repeatabilityId, label, 0, u, 'lx', 'reading', 'one reading', words.repeatabilityLine, shape);
  }
  return first;
}

/** Of readings elsewhere, where it is said how many; else of a guess good to a quarter of itself. */
function knownDof(known: RunInput['repeatability']): number {
  if (known?.part !== undefined && known.readings !== undefined) return known.readings - 1;
  return 0.5 / defaults.REPEATABILITY_RELIABILITY ** 2;
}

/** How the meter was held at each point: not seen in repeats that are taken in one place. */
function addPlacing(list: List, { name, counts }: Points, known: number | undefined): number {
  const half = known ?? defaults.PLACING;
  const words = wordsOf(name, counts.length);
  const first = list.components.length;
  for (let i = 0; i < counts.length; i++) {
    const { placingId, placing: label } = words.points[i]!;
    list.add(placingId, label, 1, half, '', 'reading', 'one reading', words.placingLine);
  }
  return first;
}

function addLinearity(list: List, name: FieldName, { meter, linearity }: RunInput): number {
  if (!linearity) return -1;
  const half = linearity.half ?? defaults.CLASS_LINEARITY[meter.meterClass ?? defaults.WORST_CLASS];
  return list.add(
    `linearity:${name}`,
    `Linearity and range step, ${name}`,
    1,
    half,
    '',
    'run',
    `every ${name} reading`,
  );
}

/**
 * Mismatch of each field as the mixture of causes it is. Without a spectrum every field has one of its own. With it
 * the primaries have, by f1′ and the kind of light; white is their sum, as far as they make it up, and what is added.
 */
export function addMismatch(list: List, input: RunInput, fields: readonly Field[]): Part[][] {
  const one = (name: FieldName) => addSpectral(list, name, input);
  const alone = fields.map((field) => (isMixed(input, field.name) ? -1 : one(field.name)));
  const net = fields.map(({ gross, light }) => mean(gross) - light * mean(ambientsOf(input)));
  const whole = (at: number): Part[] => [{ at, share: 1 }];
  return fields.map(({ name }, f) => {
    if (!isMixed(input, name)) return whole(alone[f]!);
    const primaries = fields.flatMap((field, i) =>
      (PRIMARIES as readonly string[]).includes(field.name) ? [i] : [],
    );
    const sum = primaries.reduce((all, i) => all + net[i]!, 0);
    const part = Math.min(1, sum / net[f]!);
    const made = primaries.map((i) => ({ at: alone[i]!, share: (part * net[i]!) / sum }));
    return [...made, { at: one(name), share: 1 - part }];
  });
}

/** White of a run with all primaries, where their spectra are spoken of. */
function isMixed({ spectrum, red, green, blue }: RunInput, name: FieldName): boolean {
  return (
    name === 'white' && spectrum !== undefined && [red, green, blue].every((field) => field !== undefined)
  );
}

function ambientsOf({ ambient }: RunInput): readonly number[] {
  return typeof ambient?.value === 'number' ? [ambient.value] : (ambient?.value ?? [0]);
}

/** The mismatch of one kind of light. Black leaks white, as far as anybody knows. */
export function addSpectral(list: List, name: FieldName, input: RunInput): number {
  const known = input[name]?.spectralHalf ?? (name === 'black' ? input.board?.blackSpectralHalf : undefined);
  const half = known ?? spectralHalf(name, input);
  const { spectralId, spectral, spectralSharedBy } = wordsOf(name, 0);
  return list.add(spectralId, spectral, 1, half, '', 'spectrum', spectralSharedBy);
}

function spectralHalf(name: FieldName, { spectrum, meter }: RunInput): number {
  if (!spectrum) return defaults.SPECTRAL[name];
  const f1 = spectrum.f1 ?? defaults.CLASS_F1[meter.meterClass ?? defaults.WORST_CLASS];
  // Nothing is wrong by more than the whole of it.
  return Math.min(
    1,
    defaults.SPECTRAL_PER_F1[spectrum.light ?? 'unknown'][name === 'black' ? 'white' : name] * f1,
  );
}
