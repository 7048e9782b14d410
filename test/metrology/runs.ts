import { Bits } from '../../src/metrology/bits';
import { unit } from '../../src/metrology/draws';
import type { FieldInput, RunInput } from '../../src/metrology/run/input';

/** One number at all nine points. */
export const nine = (display: number): number[] => Array.from({ length: 9 }, () => display);

/** A field with the same number on the display at all nine points, read twice, with nothing uncertain about it. */
export function flat(display: number, spectralHalf = 0): FieldInput {
  return { repeats: [nine(display), nine(display)], spectralHalf };
}

/** A run in which everything is known exactly; tests make one thing at a time uncertain. */
export const EXACT: RunInput = {
  image: { width: 2, height: 1.5, widthHalf: 0, heightHalf: 0, squareHalf: 0 },
  meter: { ofReading: 0, digits: 0, digit: 0 },
  white: flat(1000),
  red: flat(250),
  green: flat(650),
  blue: flat(80),
  ambient: { value: 0, half: 0 },
  drift: { first: 1000, last: 1000 },
};

/** An invented run of 36 readings of a reading room's projector, read twice, with a hand-held meter's data. */
export function typicalRun(seed = 1): RunInput {
  const bits = new Bits(seed);
  const field = (level: number, range: number, spectralHalf: number): FieldInput => {
    const grid = Array.from({ length: 9 }, () => level * (0.8 + 0.2 * unit(bits)));
    const round = (lux: number) => Math.round((10 * lux) / range) / 10;
    const again = grid.map((lux) => round(lux * (1 + 0.01 * (unit(bits) - 0.5))));
    return { repeats: [grid.map(round), again], range, spectralHalf, correction: 1 };
  };
  return {
    image: { width: 1.92, height: 1.2, widthHalf: 0.004, heightHalf: 0.004, squareHalf: 0.003 },
    meter: { ofReading: 0.03, digits: 5, digit: 0.1 },
    white: field(1000, 10, 0.02),
    red: field(220, 10, 0.05),
    green: field(690, 10, 0.02),
    blue: field(85, 1, 0.1),
    black: field(2, 0.1, 0.02),
    ambient: { value: 1.2, half: 0.3 },
    drift: { first: 100, last: 99.2 },
    screen: { gain: 1.1, half: 0.05 },
    others: [
      { label: 'Temperature of the meter', half: 0.005, distribution: 'triangular', appliesTo: 'all' },
    ],
  };
}

/** A random run: sizes, levels, meters and doubts all drawn anew; whether they are within reason is up to `doubt` (1 is usual). */
export function randomRun(seed: number, doubt = 1): RunInput {
  const bits = new Bits(seed);
  const between = (low: number, high: number) => low + (high - low) * unit(bits);
  const range = () => [1, 10][Math.floor(2 * unit(bits))]!;
  const level = between(200, 3000);
  const calibration = between(0.95, 1.05);
  const ambient = between(0, 0.05) * level;
  const field = (share: number): FieldInput => {
    const lux = Array.from({ length: 9 }, () => share * level * between(0.6, 1));
    const factor = range();
    const times = 1 + Math.floor(5 * unit(bits));
    const light = between(0.9, 1.15);
    // What the meter shows: too much of the projector's light by what that is corrected with, and all of the room's.
    const shown = lux.map((value) => (value / light + ambient) / calibration / factor);
    const repeats = Array.from({ length: times }, () =>
      shown.map((value) => value * (1 + 0.01 * doubt * between(-1, 1))),
    );
    return {
      repeats,
      range: factor,
      correction: calibration * light,
      light,
      spectralHalf: doubt * between(0, 0.05),
    };
  };
  const [width, height] = [between(1, 4), between(0.7, 2.5)];
  return {
    image: {
      width,
      height,
      widthHalf: doubt * between(0, 0.01) * width,
      heightHalf: doubt * between(0, 0.01) * height,
      squareHalf: doubt * between(0, 0.01),
    },
    meter: { ofReading: doubt * between(0.01, 0.08), digits: Math.floor(between(0, 11)), digit: 0.1 },
    white: field(1),
    red: field(0.22),
    green: field(0.68),
    blue: field(0.1),
    ambient: { value: ambient, half: doubt * between(0, 0.002) * level, range: 1, calibration },
    drift: { first: 100, last: 100 * (1 + doubt * between(-0.02, 0.02)) },
    screen: { gain: between(0.8, 2), half: doubt * 0.05 },
    others: [
      { label: 'own', half: doubt * between(0, 0.02), distribution: 'u-shaped', appliesTo: 'colours' },
    ],
    placing: { half: doubt * between(0, 0.02) },
  };
}
