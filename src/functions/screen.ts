import { type Contrast, checkerboardContrast, sequentialContrast, sortBoard } from '../photometry/contrast';
import { drift } from '../photometry/drift';
import { luminance } from '../photometry/luminance';
import { all, bad, chain, good, missing, type Outcome } from '../photometry/outcome';
import {
  at,
  CHECKER,
  CORNERS,
  type Conversion,
  type GridShape,
  NINE,
  netIlluminances,
  placeOf,
  SINGLE,
} from '../photometry/reading';
import { cornersOverCentre, deviations, minOverMax, minOverMean } from '../photometry/uniformity';
import { ILLUMINANCE_UNITS, LUMINANCE_UNITS } from '../photometry/units';
import { conversionParams, correction } from './light';
import { known } from './lists';
import { ambient, choice, light, number, perReading, readings } from './params';
import { define } from './record';

const net = (shape: GridShape, label: string, display: readonly number[], conversion: Conversion) =>
  netIlluminances(display, shape, label, conversion);

const resolution = () =>
  number('step of the display as illuminance; black at or below it gives "at least"', 'lx', { min: 0 }, 0);

const doubt = () =>
  known(
    'expanded uncertainty U of the mean net black; black no larger than it gives "at least white ÷ (black + U)"',
    'lx',
  );

const ambience = () =>
  choice('whether ambient light is taken off, or seen as well', 'CONTRASTOF', ['net', 'as seen'], 'net');

/**
 * Illuminances whose single points may lie below ambient by the meter's noise alone, so that they are compared as means;
 * as seen, with the room's own light as it is.
 */
function meansOf(
  shape: GridShape,
  label: string,
  display: readonly number[],
  { ambient, light = 1, ...conversion }: Conversion,
  of: 'net' | 'as seen',
): Outcome<number[]> {
  return chain(net(shape, label, display, { ...conversion, ambient: 0 }), (gross) =>
    good(gross.map((e, i) => (e - at(ambient, i)) * light + (of === 'net' ? 0 : at(ambient, i)))),
  );
}

/** A contrast as a cell shows it: a number, or the text "at least 2231". */
function contrastCell({ ratio, isLowerBound }: Contrast): number | string {
  return isLowerBound ? `at least ${ratio}` : ratio;
}
const shown = (outcome: Outcome<Contrast>) => chain(outcome, (c) => good(contrastCell(c)));

/**
 * Black may read 0, but so does an empty cell: where one of them is 0, the caller says how many were read.
 */
const counted = (what: string) =>
  known(
    `how many ${what} there are, e.g. COUNT(range); needed where one of them is 0, because an empty cell counts as 0`,
    '',
  );
function allRead(
  display: readonly number[],
  count: number | undefined,
  shape: GridShape,
  label: string,
): Outcome<true> {
  const zeros = display.flatMap((value, i) => (value === 0 ? [placeOf(label, shape, i)] : []));
  if (count !== undefined && count !== display.length) {
    const message = `There must be ${display.length} ${label} readings; the count given is ${count}.`;
    return bad(missing(`${label} readings`, message));
  }
  if (zeros.length === 0 || count !== undefined) return good(true);
  const message = `The ${zeros[0]} is empty or 0${zeros.length > 1 ? `, and ${zeros.length - 1} more` : ''}: an empty cell counts as 0. If the display did show 0, give the count of readings as the last argument.`;
  return bad(missing(zeros[0]!, message));
}

/** Nine readings and four corners with their own range factors but one unit, correction and ambient. */
const withCorners = () => ({
  readings: readings(NINE, 'nine-point'),
  corners: readings(CORNERS, 'corner'),
  unit: choice('unit on the meter’s display', 'ILLUMINANCEUNIT', ILLUMINANCE_UNITS, 'lx'),
  range: perReading(NINE, 'range factor of the nine'),
  cornerRange: perReading(CORNERS, 'range factor of the corners'),
  correction: correction(),
  ambient: ambient(NINE),
  cornerAmbient: ambient(CORNERS),
});
interface Thirteen extends Conversion {
  readonly readings: number[];
  readonly corners: number[];
  readonly cornerRange: number | readonly number[];
  readonly cornerAmbient: number | readonly number[];
}
const thirteen = ({ readings, corners, cornerRange, cornerAmbient, ...conversion }: Thirteen) =>
  all([
    net(NINE, 'nine-point', readings, conversion),
    net(CORNERS, 'corner', corners, { ...conversion, range: cornerRange, ambient: cornerAmbient }),
  ] as const);

export const screenFunctions = [
  define({
    id: 'UNIFORMITY',
    summary: 'Uniformity of nine points: smallest over largest, or smallest over mean.',
    params: {
      readings: readings(NINE, 'nine-point'),
      measure: choice('which measure', 'UNIFORMITY', ['min/max', 'min/mean'], 'min/max'),
      ...conversionParams(NINE),
    },
    result: { kind: 'number', unit: 'fraction' },
    formula: 'E_min ÷ E_max, or E_min ÷ E_mean',
    source: 'min/max: ISO 11315-1:1997 (publisher’s overview); min/mean: common practice',
    example: '=LIGHT.UNIFORMITY(WhiteReadings,"min/max")',
    compute: ({ readings, measure, ...conversion }) =>
      chain(net(NINE, 'nine-point', readings, conversion), measure === 'min/max' ? minOverMax : minOverMean),
  }),
  define({
    id: 'DEVIATION',
    summary: 'Largest deviation of thirteen points from the mean of nine, upwards or downwards.',
    params: { ...withCorners(), side: choice('plus or minus', 'SIDE', ['plus', 'minus'], 'minus') },
    result: { kind: 'number', unit: 'fraction' },
    formula: 'extreme of points 1 to 13 ÷ mean of points 1 to 9 − 1',
    source: 'IEC 61947-1, ANSI/NAPM IT7.228 (from memory)',
    example: '=LIGHT.DEVIATION(WhiteReadings,CornerReadings,,,,,,,"minus")',
    compute: ({ side, ...rest }) =>
      chain(thirteen(rest), ([nine, corners]) => chain(deviations(nine, corners), (d) => good(d[side]))),
  }),
  define({
    id: 'CORNERS',
    summary: 'Mean of the four corner points over the centre.',
    params: withCorners(),
    result: { kind: 'number', unit: 'fraction' },
    formula: 'mean of points 10 to 13 ÷ point 5',
    source: 'specification-sheet item of ISO/IEC 21118; mean of corners from memory',
    example: '=LIGHT.CORNERS(WhiteReadings,CornerReadings)',
    compute: (a) => chain(thirteen(a), ([nine, corners]) => cornersOverCentre(nine, corners)),
  }),
  define({
    id: 'CONTRAST',
    summary: 'Sequential contrast: mean white over mean black, net or as seen with the room’s own light.',
    params: {
      white: readings(NINE, 'white'),
      black: readings(NINE, 'black', 'reading'),
      resolution: resolution(),
      unit: choice('unit on the meter’s display', 'ILLUMINANCEUNIT', ILLUMINANCE_UNITS, 'lx'),
      whiteRange: perReading(NINE, 'range factor of the white readings'),
      blackRange: perReading(NINE, 'range factor of the black readings'),
      correction: correction(),
      ambient: ambient(NINE),
      blackCount: counted('black readings'),
      blackDoubt: doubt(),
      light: light(),
      of: ambience(),
    },
    result: { kind: 'number or text', unit: 'to 1' },
    formula: 'mean net white ÷ mean net black; "at least" where black is at or below one step of the display',
    source: 'nine-point means: ISO/IEC 21118 as retold (from memory)',
    example: '=LIGHT.CONTRAST(WhiteReadings,BlackReadings,0.1)',
    compute: ({ white, black, resolution, whiteRange, blackRange, blackCount, blackDoubt, of, ...rest }) => {
      const read = allRead(black, blackCount, NINE, 'black');
      if (!read.ok) return read;
      const whiteConversion = { ...rest, range: whiteRange };
      // What is seen does not hang on what is taken off.
      const whites =
        of === 'net'
          ? net(NINE, 'white', white, whiteConversion)
          : meansOf(NINE, 'white', white, whiteConversion, of);
      const blacks = meansOf(NINE, 'black', black, { ...rest, range: blackRange }, of);
      return chain(all([whites, blacks] as const), ([bright, dark]) =>
        shown(sequentialContrast(bright, dark, resolution, blackDoubt)),
      );
    },
  }),
  define({
    id: 'CHECKERBOARD',
    summary: 'Checkerboard contrast: mean of 8 white over mean of 8 black tile centres of a 4 × 4 board.',
    params: {
      readings: readings(CHECKER, 'checkerboard', 'reading'),
      topLeft: choice('what the top left tile shows', 'TILE', ['white', 'black'], 'white'),
      resolution: resolution(),
      unit: choice('unit on the meter’s display', 'ILLUMINANCEUNIT', ILLUMINANCE_UNITS, 'lx'),
      range: perReading(CHECKER, 'range factor'),
      correction: correction(),
      ambient: ambient(SINGLE),
      tileCount: counted('tiles'),
      blackDoubt: doubt(),
      light: light(),
      of: ambience(),
    },
    result: { kind: 'number or text', unit: 'to 1' },
    formula: 'mean of 8 white ÷ mean of 8 black',
    source: 'IEC 61947-1 (from memory); 16 zones: ANSI/INFOCOMM 3M-2011',
    example: '=LIGHT.CHECKERBOARD(BoardReadings,"white",0.1)',
    compute: ({ readings, topLeft, resolution, tileCount, blackDoubt, of, ...conversion }) => {
      const read = allRead(readings, tileCount, CHECKER, 'checkerboard');
      if (!read.ok) return read;
      const dark = sortBoard(
        readings.map((_, i) => i),
        topLeft,
      ).white.find((i) => readings[i] === 0);
      if (dark !== undefined) {
        const where = placeOf('white checkerboard', CHECKER, dark);
        return bad(
          missing(where, `The ${where} is missing: the cell is empty or 0, and 0 cannot be a reading here.`),
        );
      }
      return chain(meansOf(CHECKER, 'checkerboard', readings, conversion, of), (tiles) =>
        shown(checkerboardContrast(tiles, topLeft, resolution, blackDoubt)),
      );
    },
  }),
  define({
    id: 'LUMINANCE',
    summary: 'Screen luminance from illuminance and screen gain.',
    params: {
      illuminance: number('illuminance on the screen', 'lx', { moreThan: 0 }),
      gain: number('screen gain', '', { moreThan: 0 }, 1),
      unit: choice('unit of the result', 'LUMINANCEUNIT', LUMINANCE_UNITS, 'cd/m²'),
    },
    result: { kind: 'number', unit: 'cd/m² or fL' },
    formula: 'L = E × gain ÷ π',
    source: 'CIE e-ILV 17-24-063, 17-24-077',
    example: '=LIGHT.LUMINANCE(500,1)',
    compute: ({ illuminance, gain, unit }) => good(luminance(illuminance, gain, unit)),
  }),
  define({
    id: 'DRIFT',
    summary: 'Relative change of the centre reading from the first to the last of a run.',
    params: {
      first: number('first centre reading', '', { moreThan: 0 }),
      // A lit field never reads 0: that would be an empty cell, and a drift of −100 %.
      last: number('last centre reading', '', { moreThan: 0 }),
    },
    result: { kind: 'number', unit: 'fraction' },
    formula: 'last ÷ first − 1',
    source: 'common practice; over 2 % repeat the run',
    example: '=LIGHT.DRIFT(1000,985)',
    compute: ({ first, last }) => drift(first, last),
  }),
];
