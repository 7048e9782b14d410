import type { RunInput } from '../../src/metrology/run/input';
import { imageSize } from '../../src/photometry/image';
import { PRIMARIES, sortTiles } from '../../src/photometry/tiles';
import { LUX, METRES } from '../../src/photometry/units';
import { type RandomRun, repeatsOf } from './typedrun';

/** Tiles whose row and column add up to an even (0) or an odd (1) number; the top left one is white. */
const tiles = (board: readonly (readonly number[])[], parity: number) =>
  board.flatMap((row, r) => row.filter((_, c) => (r + c) % 2 === parity));

const SHAPES = {
  'limit of error': 'rectangular',
  'certificate U with k = 2': 'normal',
  'limit rarely reached': 'triangular',
} as const;

/** A sensor h in front of a screen that is D from the lens reads more by (D ÷ (D − h))² (inverse square law). */
export function placeFactor({
  throwDistance: D,
  sensorHeight: h,
}: RandomRun['setup']['uncertainty']): number {
  return D === undefined || h === undefined ? 1 : ((D - h / 1000) / D) ** 2;
}

/** The centre in white at first and at last, lx, the room's light taken off both. */
export function centresOf({ setup, typed }: RandomRun): { first: number; last: number } {
  const { unit, calibration, corrections } = setup.meter;
  const dark = (typed.AmbientReadings?.flat() ?? [0]) as number[];
  const at = (name: string, i: number) => typed[name]![i]![i] as number;
  const net = (reading: number, range: number) =>
    LUX[unit] *
    calibration *
    corrections.white *
    placeFactor(setup.uncertainty) *
    (reading * range - (dark.length === 1 ? dark[0]! : dark[4]!));
  return {
    first: net(at('WhiteReadings', 1), at('WhiteRange', 1)),
    last: net(at('LastReading', 0), at('LastRange', 0)),
  };
}

/** An invented run as the uncertainty model takes it: from what was typed, without any sheet. */
export function runInput(run: RandomRun): RunInput {
  const { setup, typed } = run;
  const { meter, uncertainty: u } = setup;
  const size = sizeOf(run);
  const luxPerUnit = LUX[meter.unit];
  const place = placeFactor(u);
  const field = (name: 'white' | 'red' | 'green' | 'blue') => {
    const tiled = name !== 'white' && setup.colour === 'tiled patterns';
    const stem = name[0]!.toUpperCase() + name.slice(1);
    const patterns = ['A', 'B', 'C'].map((letter) => `Pattern${letter}`);
    const repeats = tiled
      ? Array.from({ length: setup.repeats }, (_, k) =>
          sortTiles(
            patterns.map((p) => repeatsOf(run, p)[k]!),
            name as (typeof PRIMARIES)[number],
          ).flat(),
        )
      : repeatsOf(run, `${stem}Readings`).map((grid) => grid.flat());
    const ranges = tiled
      ? sortTiles(
          patterns.map((p) => typed[`${p}Range`] as number[][]),
          name as (typeof PRIMARIES)[number],
        )
      : (typed[`${stem}Range`] as number[][]);
    return {
      repeats,
      range: ranges.flat(),
      correction: meter.calibration * meter.corrections[name] * place,
      light: meter.corrections[name] * place,
      spectralHalf: u.spectral?.[name],
    };
  };
  const ambient = typed.AmbientReadings?.flat().map((n) => (n as number) * luxPerUnit * meter.calibration);
  return {
    image: {
      ...size,
      widthHalf: u.width === undefined ? undefined : u.width / 1000,
      heightHalf: u.height === undefined ? undefined : u.height / 1000,
      squareHalf: u.square,
      isOneLength: setup.image.shape === 'rectangle',
    },
    meter: {
      ofReading: u.ofReading,
      ...(u.ofReading === undefined ? {} : { distribution: SHAPES[u.statement] }),
      meterClass: u.meterClass === 'unknown' ? undefined : u.meterClass,
      digits: u.digits,
      digit: meter.digit,
      luxPerUnit,
    },
    white: field('white'),
    ...(setup.colour === 'none' ? {} : Object.fromEntries(PRIMARIES.map((name) => [name, field(name)]))),
    ...(setup.black
      ? {
          black: {
            repeats: [typed.BlackReadings!.flat() as number[]],
            range: typed.BlackRange!.flat() as number[],
            correction: meter.calibration * meter.corrections.white * place,
            light: meter.corrections.white * place,
            spectralHalf: u.spectral?.black,
          },
        }
      : {}),
    ...(setup.checkerboard
      ? {
          board: {
            white: tiles(typed.BoardReadings as number[][], 0),
            black: tiles(typed.BoardReadings as number[][], 1),
            range: 1,
            correction: meter.calibration * meter.corrections.white * place,
            light: meter.corrections.white * place,
            blackSpectralHalf: u.spectral?.black,
          },
        }
      : {}),
    screen: { gain: setup.gain, half: u.gain === undefined ? undefined : u.gain * setup.gain },
    ...(!ambient && u.ambient !== undefined ? { ambient: { value: 0, half: u.ambient } } : {}),
    ...(ambient
      ? {
          ambient: {
            value: ambient.length === 1 ? ambient[0]! : ambient,
            half: u.ambient,
            range: 1,
            calibration: meter.calibration,
          },
        }
      : {}),
    spectrum: { f1: u.f1, ...(u.light === 'unknown' ? {} : { light: u.light }) },
    placing: { half: u.placing },
    repeatability: { part: u.repeatability, readings: u.repeatabilityReadings },
    oblique: { f2: u.f2 },
    linearity: { half: u.linearity },
    room: { half: u.room },
    sensor: {
      throwDistance: u.throwDistance,
      height: u.sensorHeight === undefined ? undefined : u.sensorHeight / 1000,
    },
    blackBound: 'U',
    drift: centresOf(run),
    others: u.other
      ? [{ label: 'Another cause', half: u.other, distribution: 'rectangular', appliesTo: 'all' }]
      : [],
  };

  /** For four sides the mean width and a height that gives the true area: the budget needs their relative errors. */
  function sizeOf({ setup: { image: shape } }: RandomRun): { width: number; height: number } {
    if (shape.shape === 'rectangle') {
      const known = imageSize(shape.known, shape.length * METRES[shape.unit], shape);
      if (!known.ok) throw new Error('No image');
      return known.value;
    }
    const m = METRES[shape.unit];
    return { width: ((shape.top + shape.bottom) / 2) * m, height: ((shape.left + shape.right) / 2) * m };
  }
}
