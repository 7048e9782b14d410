import type { RunInput } from '../../src/metrology/run/input';
import type { ResultName } from '../../src/sheets/names/all';
import type { BudgetId } from '../../src/sheets/run/budgetid';
import { defaultRunSetup, type RunSetup } from '../../src/sheets/runsetup';

/*
 * One invented run whose uncertainties are worked by hand. A lux meter with a display step of 1 lx, ± 3 %, ± 2 digits;
 * everything in range × 1; ambient 0 ± 3 lx; the centre fell by 1 %; the screen has gain 1.2 ± 10 %; the meter errs in
 * white and in black by ± 2 % each. White is read twice and the same both times: 800 lx top left, 1000 lx bottom right,
 * 900 lx at the seven points between, 900 lx on average. Black is 9 lx all over, the board's tiles 500 lx and 5 lx; both
 * are read once, so that 1 % of each reading is assumed for their scatter. The meter's placing is good to ± 1 % of each
 * reading, its linearity to ± 0.5 % of a field, the room sends back ± 1 %; the lens is 4 m away and the sensor flat on the
 * screen to ± 5 mm, which is 2 · 5 ÷ 4000 = ± 0.25 %. Rectangles divide by √3.
 */
/**
 * f2 = 2 % of oblique light: 1.52 × 2 % × the sine of the angle at the mean of nine points, 2 ÷ 9 of 2 m across and 1.5 m ÷ 2 down
 * as seen from 4 m.
 */
const OBLIQUE = 1.52 * 0.02 * Math.sin(Math.atan(Math.hypot(4 / 9, 0.75) / 4));
const NINE = [800, 900, 900, 900, 900, 900, 900, 900, 1000];

export const HAND_SETUP: RunSetup = {
  ...defaultRunSetup(),
  image: { shape: 'rectangle', known: 'width', length: 2, unit: 'm', across: 4, down: 3 },
  gain: 1.2,
  colour: 'none',
  ambient: 'none',
  black: true,
  checkerboard: true,
  repeats: 2,
  uncertainty: {
    ...defaultRunSetup().uncertainty,
    ofReading: 0.03,
    digits: 2,
    spectral: { white: 0.02, black: 0.02 },
    ambient: 3,
    gain: 0.1,
    placing: 0.01,
    linearity: 0.005,
    room: 0.01,
    throwDistance: 4,
    sensorHeight: 0,
    f2: 0.02,
  },
};

const rows = (flat: readonly number[], columns: number) =>
  Array.from({ length: flat.length / columns }, (_, r) => flat.slice(r * columns, (r + 1) * columns));
export const HAND_TYPED: Readonly<Record<string, number[][]>> = {
  WhiteReadings: rows(NINE, 3),
  WhiteRepeat2: rows(NINE, 3),
  BlackReadings: rows(Array<number>(9).fill(9), 3),
  BoardReadings: rows(
    Array.from({ length: 16 }, (_, i) => ((Math.floor(i / 4) + i) % 2 === 0 ? 500 : 5)),
    4,
  ),
  LastReading: [[891]],
};

/** The same as the model takes it. */
export const HAND_INPUT: RunInput = {
  image: { width: 2, height: 1.5 },
  meter: { ofReading: 0.03, digits: 2, digit: 1 },
  white: { repeats: [NINE, NINE], spectralHalf: 0.02 },
  black: { repeats: [Array<number>(9).fill(9)], spectralHalf: 0.02 },
  board: { white: Array<number>(8).fill(500), black: Array<number>(8).fill(5), blackSpectralHalf: 0.02 },
  ambient: { value: 0, half: 3 },
  drift: { first: 900, last: 891 },
  screen: { gain: 1.2, half: 0.12 },
  spectrum: {},
  placing: { half: 0.01 },
  linearity: { half: 0.005 },
  room: { half: 0.01 },
  sensor: { throwDistance: 4, height: 0 },
  oblique: { f2: 0.02 },
  blackBound: 'U',
};

interface HandResult {
  readonly id: BudgetId;
  readonly output: string;
  readonly name: ResultName;
  readonly value: number;
  /** Squares of the parts, in the order of the sheet's rows. */
  readonly squares: readonly number[];
}

/** Value and squared parts of each result, cause by cause. */
export const BY_HAND: readonly HandResult[] = [
  {
    // L = 900 lx · 1.2 ÷ π. Relative: 3 %, 2 %, 1 %, 0.5 %, 0.25 % and 10 % ÷ √3; in lux: 2 ÷ √3, 0.5 ÷ √3 ÷ 3, 3 ÷ √3.
    // Placing is 1 % ÷ √3 of each of nine readings, the sum of whose squares is 7.31 million.
    id: 'Luminance',
    output: 'luminance',
    name: 'ScreenLuminance',
    value: 1080 / Math.PI,
    squares: [
      0.0009 / 3,
      0.000_025 / 3,
      4 / 3 / 810_000,
      0.25 / 27 / 810_000,
      0,
      ((0.0001 / 3) * 7_310_000) / 81 / 810_000,
      0.0004 / 3,
      9 / 3 / 810_000,
      0.0001 / 3,
      0.002_5 ** 2 / 3,
      OBLIQUE ** 2 / 3,
      0.0001 / 3,
      0.01 / 3,
    ].map((relative) => relative * (1080 / Math.PI) ** 2),
  },
  {
    // V = 800 ÷ 1000. The meter's 3 % and the 2 % of white cancel; an offset common to both points counts 1 − V = 0.2
    // times per 1000 lx; the display's steps √(1 + 0.8²) = √1.64 times; placing √(0.8² + 0.8²) = √1.28 times.
    id: 'Uniformity',
    output: 'uniformity',
    name: 'UniformityMinMax',
    value: 0.8,
    squares: [0, 0, (4 / 3) * 0.04e-6, (0.25 / 3) * 1.64e-6, 0, 1.28e-4 / 3, 0, 3 * 0.04e-6],
  },
  {
    // C = 900 ÷ 9. A common offset counts (C − 1) ÷ 9 = 11 times per lux; the steps of nine displays each √(1 + C²) ÷ 9
    // ÷ 3 times; black's scatter 0.09 lx ÷ 3 counts C ÷ 9 times; the percentages of a field count C times. Placing: the
    // squares of black are 729, so that √(7.31 million + C² · 729) ÷ 81 of 1 % ÷ √3.
    id: 'Contrast',
    output: 'contrast',
    name: 'SequentialContrast',
    value: 100,
    squares: [
      0,
      0.25 / 3,
      0.25 / 3,
      (4 / 3) * 121,
      ((0.25 / 3 / 9) * 10_001) / 81,
      0,
      1 / 9,
      ((0.0001 / 3) * 14_600_000) / 6561,
      4 / 3,
      4 / 3,
      3 * 121,
      1 / 3,
    ],
  },
  {
    // C = 500 ÷ 5. A common offset counts 99 ÷ 5 = 19.8 times; the steps √(1 + C²) ÷ 5 ÷ √8 times; each scatter of 1 %
    // is C · 0.01 ÷ √8, that of placing as large and a rectangle. No drift: the board is read in one go, in one range.
    id: 'Board',
    output: 'board',
    name: 'BoardContrast',
    value: 100,
    squares: [
      0,
      (4 / 3) * 392.04,
      ((0.25 / 3) * 10_001) / 200,
      1 / 8,
      1 / 8,
      0.25 / 3,
      4 / 3,
      4 / 3,
      3 * 392.04,
    ],
  },
];
