import { mean } from '../../photometry/reading';
import { divisor } from '../distribution';
import * as defaults from './defaults';
import {
  FIELD_NAMES,
  type FieldName,
  type MeterInput,
  type OtherInput,
  PRIMARIES,
  type RunInput,
} from './input';
import type { FieldLayout, Layout } from './layout';
import { List } from './list';
import { digitOn, type Field, type Points, prepareField } from './prepare';
import { addDigits, addMismatch, addPoints, addReadings, addSpectral } from './readings';

const EVERY_OUTPUT = 'every light output of the run';

/** All causes of a run's uncertainty, from a checked input. What is not known of it counts by a cautious default. */
export function layoutOf(input: RunInput): Layout {
  const list = new List();
  const { meter, image } = input;
  const luxPerUnit = meter.luxPerUnit ?? 1;
  const fields = FIELD_NAMES.flatMap((name) =>
    input[name] ? [prepareField(name, input[name], luxPerUnit)] : [],
  );
  const tiles = tilesOf(input, luxPerUnit);
  const gain = addGain(list, meter);
  const ambientRanges = rangesOf(input);
  const read = [...fields, ...tiles, { ranges: ambientRanges }];
  const digits = addDigits(list, meter, read, luxPerUnit);
  const points = fields.map((field) => addReadings(list, field, input, digits));
  const mixtures = addMismatch(list, input, fields);
  const readings = points.map((layout, i) => ({ ...layout, spectral: mixtures[i]! }));
  const board = addBoard(list, input, tiles, readings, digits);
  const ambient = addAmbient(list, input, fields[0]!);
  const [width, height, size] = addSize(list, image);
  const square = addSquare(list, image.squareHalf);
  const drifts = addDrifts(list, input);
  const screen = addScreen(list, input);
  const everywhere = [...addSensor(list, input), ...addOblique(list, input), ...addRoom(list, input)];
  const others = (input.others ?? []).map((other) => ({ other, at: addOther(list, other) }));
  return {
    components: list.components,
    gain,
    width,
    height,
    square,
    everywhere,
    size,
    screen,
    ...ambient,
    ambientDigits: fields[0]!.gross.flatMap((_, i) => {
      const range = ambientRanges.length === 1 ? ambientRanges[0] : ambientRanges[i];
      return range === undefined ? [] : [digits.get(range)!];
    }),
    ambientScale: input.ambient?.calibration ?? 1,
    ...drifts,
    fields: readings.map((layout) => ({
      ...layout,
      others: others.flatMap(({ other, at }) => (bearsOn(other, layout.field.name) ? [at] : [])),
    })),
    ...(board ? { board } : {}),
  };
}

/** White and black tiles of the checkerboard, in this order; none where there is no board. */
function tilesOf({ board }: RunInput, luxPerUnit: number): Points[] {
  if (!board) return [];
  const { white, black, range, correction, light } = board;
  return [
    prepareField('white tile', { repeats: [white], range, correction, light }, luxPerUnit),
    prepareField('black tile', { repeats: [black], range, correction, light }, luxPerUnit),
  ];
}

/**
 * White tiles are white light. Black ones show what leaks and what is scattered, a mixture as unknown as the black
 * field's: its spectral mismatch is one and the same cause.
 */
function addBoard(
  list: List,
  input: RunInput,
  [white, black]: readonly Points[],
  readings: readonly Omit<FieldLayout, 'others'>[],
  digits: ReadonlyMap<number, number>,
): Layout['board'] {
  if (!white || !black) return undefined;
  const spectralOf = (name: FieldName) => readings.find(({ field }) => field.name === name)?.spectral;
  const points = (tiles: Points) => ({ ...addPoints(list, tiles, input, digits), linearity: -1 });
  return {
    white: { field: white, spectral: spectralOf('white')!, ...points(white) },
    black: {
      field: black,
      ...points(black),
      spectral: spectralOf('black') ?? [{ at: addSpectral(list, 'black', input), share: 1 }],
    },
  };
}

function addGain(list: List, meter: MeterInput): number {
  const { distribution = 'rectangular', coverageFactor = defaults.COVERAGE_FACTOR } = meter;
  const worst = meter.meterClass ?? defaults.WORST_CLASS;
  const half = meter.ofReading ?? defaults.CLASS_TOTAL[worst];
  return list.add(
    'gain',
    'Meter, % of reading',
    1,
    half,
    '',
    'meter',
    'every reading of this meter',
    undefined,
    { distribution, by: divisor(distribution, coverageFactor), dof: Number.POSITIVE_INFINITY },
  );
}

function addAmbient(list: List, { ambient, meter }: RunInput, white: Field) {
  const value = ambient?.value ?? 0;
  const points = white.gross.map((_, i) => (typeof value === 'number' ? value : value[i]!));
  const ambientMean = mean(points);
  const half = ambient?.half ?? assumedAmbient();
  const at = list.add('ambient', 'Ambient light', ambientMean, half, 'lx', 'run', EVERY_OUTPUT);
  return { ambient: at, ambientMean, ambientOffsets: points.map((lux) => lux - ambientMean) };

  function assumedAmbient(): number {
    if (!ambient) {
      return defaults.AMBIENT_UNMEASURED * mean(white.gross);
    }
    const offset =
      ambient.range === undefined
        ? (meter.digits ?? defaults.DIGITS) * digitOn(meter, 1)
        : stepOf(ambient.range) / 2;
    return defaults.AMBIENT_FRACTION * ambientMean + offset * (meter.luxPerUnit ?? 1);
  }

  /** The widest step of the display in the ranges of the ambient reading. */
  function stepOf(range: number | readonly number[]): number {
    return Math.max(...[range].flat().map((factor) => factor * digitOn(meter, factor)));
  }
}

/** Range factors of the ambient reading; none where they are not told. */
function rangesOf({ ambient }: RunInput): readonly number[] {
  return ambient?.range === undefined ? [] : [ambient.range].flat();
}

/**
 * Width and height, and with one measured length the one tape that both hang on: they are then factors of 1, and the
 * third of the list is both together.
 */
function addSize(list: List, image: RunInput['image']): readonly [number, number, number] {
  const of = (side: 'width' | 'height') => {
    const [length, known] = [image[side], image[`${side}Half`]];
    return known ?? Math.max(defaults.LENGTH_LEAST, defaults.LENGTH_FRACTION * length);
  };
  const [width, height] = [of('width'), of('height')];
  const add = (id: string, label: string, value: number, half: number, unit = 'm') =>
    list.add(id, label, value, half, unit, 'image', EVERY_OUTPUT);
  if (!image.isOneLength) {
    const [w, h] = [
      add('width', 'Image width', image.width, width),
      add('height', 'Image height', image.height, height),
    ];
    return [w, h, -1];
  }
  const both = width / image.width + height / image.height;
  return [
    add('width', 'Image width', image.width, 0),
    add('height', 'Image height', image.height, 0),
    add('size', 'Image size, one length measured', 1, both, ''),
  ];
}

/**
 * A sensor in front of the screen is nearer to the lens: it reads more by the square of the distances, always in favour
 * of passing. What is known of both is corrected for (in each field's correction); the doubt of it stays.
 */
function addSensor(list: List, { sensor, image }: RunInput): number[] {
  if (!sensor) return [];
  const { throwDistance, height } = sensor;
  const half = sensorHalf(throwDistance, height, image.width);
  return [list.add('sensor', 'Sensor in front of the screen', 1, half, '', 'run', EVERY_OUTPUT)];
}

/** As a part of the light output: E ∝ 1 ÷ (throw − height)², its first derivatives. */
function sensorHalf(throwDistance: number | undefined, height: number | undefined, width: number): number {
  const h = height ?? defaults.SENSOR_HEIGHT;
  if (throwDistance === undefined) return (2 * h) / (defaults.THROW_OF_WIDTH * width);
  const known = height === undefined ? defaults.SENSOR_HEIGHT : defaults.SENSOR_HEIGHT_HALF;
  return (2 * (known + h * defaults.THROW_HALF)) / throwDistance;
}

/** Light that falls on the sensor at an angle, which no meter takes in quite by its cosine. */
function addOblique(list: List, { oblique, sensor, image, meter }: RunInput): number[] {
  if (!oblique) return [];
  const f2 = oblique.f2 ?? defaults.CLASS_F2[meter.meterClass ?? defaults.WORST_CLASS];
  const half = f2 * defaults.OBLIQUE_PER_F2 * obliqueSine(image, sensor?.throwDistance);
  return [list.add('oblique', 'Oblique light on the sensor', 1, half, '', 'run', EVERY_OUTPUT)];
}

/** Sine of the angle of incidence at the mean distance of the nine points. An unknown throw distance is short. */
function obliqueSine({ width, height }: RunInput['image'], throwDistance?: number): number {
  const aside = Math.hypot(defaults.OBLIQUE_ACROSS * width, defaults.OBLIQUE_DOWN * height);
  return aside / Math.hypot(aside, throwDistance ?? defaults.THROW_OF_WIDTH * width);
}

function addRoom(list: List, { room }: RunInput): number[] {
  if (!room) return [];
  const half = room.half ?? defaults.ROOM;
  return [list.add('room', 'Light the room sends back', 1, half, '', 'run', EVERY_OUTPUT)];
}

function addSquare(list: List, known: number | undefined): number {
  const half = known ?? defaults.SQUARE;
  return list.add('square', 'Image not square', 1, half, '', 'image', EVERY_OUTPUT);
}

/**
 * The whole change of the centre's net light from first to last as half-width: what lies between the two is not
 * known. White and the colours are read at different times, so the change counts for each; red, green and
 * blue share theirs.
 */
function addDrifts(list: List, { drift, red, green, blue }: RunInput) {
  const half = drift ? Math.abs(drift.last / drift.first - 1) : defaults.DRIFT;
  const add = (id: string, label: string, sharedBy: string) =>
    list.add(id, label, 1, half, '', 'run', sharedBy);
  return {
    driftWhite: add('drift:white', 'Drift, white', 'the white readings of the run'),
    driftColours:
      red || green || blue ? add('drift:colours', 'Drift, colours', 'the colour readings of the run') : -1,
  };
}

function addScreen(list: List, { screen }: RunInput): number {
  if (!screen) return -1;
  const half = screen.half ?? defaults.GAIN * screen.gain;
  return list.add('screen', 'Screen gain', screen.gain, half, '', 'screen', 'every luminance on this screen');
}

function addOther(list: List, other: OtherInput): number {
  const { label, half, distribution, coverageFactor = 1, dof = Number.POSITIVE_INFINITY, appliesTo } = other;
  const shape = { distribution, by: divisor(distribution, coverageFactor), dof };
  return list.add(`other:${label}`, label, 1, half, '', 'run', sharers(appliesTo), undefined, shape);
}

function sharers(appliesTo: OtherInput['appliesTo']): string {
  if (appliesTo === 'all') return EVERY_OUTPUT;
  return appliesTo === 'colours' ? 'red, green and blue light output' : `${appliesTo} light output`;
}

function bearsOn({ appliesTo }: OtherInput, name: FieldName): boolean {
  if (appliesTo === 'colours') return (PRIMARIES as readonly FieldName[]).includes(name);
  return appliesTo === name || (appliesTo === 'all' && name !== 'black');
}
