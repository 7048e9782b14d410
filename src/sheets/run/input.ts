import type { FieldInput, RunInput } from '../../metrology/run/input';
import { LIGHT_SOURCES } from '../../metrology/words';
import { sortBoard } from '../../photometry/contrast';
import { all, bad, chain, good, invalid, type Outcome } from '../../photometry/outcome';
import { CENTRE } from '../../photometry/points';
import {
  CHECKER,
  displayNumbers,
  factors,
  isBlank,
  NINE,
  type RawCell,
  SINGLE,
} from '../../photometry/reading';
import { PRIMARIES, type Primary, sortTiles } from '../../photometry/tiles';
import { ILLUMINANCE_UNITS, LUX } from '../../photometry/units';
import type { ByName, CellName } from '../names/all';
import { type GridEnd, REPEATS } from '../names/shared';
import { stemOf } from '../names/stem';
import { sensorFactor, statementOf, wholeCauses } from './causes';

/** The cells behind the names of a run sheet, as any reader of sheets hands them over. */
export type NamedCells = ByName<{ readonly values: readonly (readonly RawCell[])[] }>;

/** A run sheet's readings and set-up, as the uncertainty model takes them. */
export interface SheetInput {
  readonly input: RunInput;
  /**
   * Image area on the sheet ÷ (width × height): 1 for a rectangle. The model knows rectangles only; light outputs
   * and their uncertainties scale with it.
   */
  readonly areaScale: number;
  readonly level: number;
}

type Grid = readonly (readonly RawCell[])[];
const PATTERNS = ['PatternA', 'PatternB', 'PatternC'] as const;

/**
 * Reads a run sheet's own entries, not its results: what the model makes of them is a second opinion. Entries left
 * empty stay undefined, so that the model's own cautious values count. Bad readings come back all at once.
 */
export function runInputOf(cells: NamedCells): Outcome<SheetInput> {
  const unit = ILLUMINANCE_UNITS.find((known) => known === single(cells, 'MeterUnit'));
  if (!unit)
    return bad(invalid('choice', 'unit on the display', 'The unit on the display must be lx or fc.'));
  const luxPerUnit = LUX[unit];
  const numbers = all([
    needed(cells, 'ImageWidth', 'image width'),
    needed(cells, 'ImageHeight', 'image height'),
    needed(cells, 'ImageArea', 'image area'),
    needed(cells, 'Level', 'level of confidence'),
    needed(cells, 'CalibrationFactor', 'calibration factor'),
    fieldOf(cells, 'white'),
    all(hasColour(cells) ? PRIMARIES.map((name) => fieldOf(cells, name)) : []),
    needed(cells, 'ScreenGain', 'screen gain'),
    blackOf(cells),
    boardOf(cells),
  ] as const);
  if (!numbers.ok) return numbers;
  const [width, height, area, level, calibration, white, colours, gain, black, board] = numbers.value;
  const ambient = ambientOf(cells, luxPerUnit * calibration);
  if (!ambient.ok) return ambient;
  const other = maybe(cells, 'OtherHalf');
  const ofReading = maybe(cells, 'MeterOfReading');
  const gainHalf = maybe(cells, 'GainHalf');
  const input: RunInput = {
    image: {
      width,
      height,
      widthHalf: metres(maybe(cells, 'WidthHalf')),
      heightHalf: metres(maybe(cells, 'HeightHalf')),
      squareHalf: maybe(cells, 'SquareHalf'),
      ...(hasCauses(cells) ? { isOneLength: cells.ImageLength !== undefined } : {}),
    },
    meter: {
      ofReading,
      ...(ofReading === undefined ? {} : statementOf(single(cells, 'MeterStatement'))),
      meterClass: (['L', 'A', 'B', 'C'] as const).find((name) => name === single(cells, 'MeterClass')),
      digits: maybe(cells, 'MeterDigits'),
      digit: maybe(cells, 'MeterDigit'),
      luxPerUnit,
    },
    white,
    ...Object.fromEntries(colours.map((field, i) => [PRIMARIES[i]!, field])),
    ...black,
    ...board,
    ...ambient.value,
    ...driftOf(cells, luxPerUnit * calibration, white.light ?? 1, ambient.value.ambient?.value ?? 0),
    ...causesOf(cells),
    screen: { gain, half: gainHalf === undefined ? undefined : gainHalf * gain },
    ...(other === undefined
      ? {}
      : {
          others: [
            {
              label: 'Another cause',
              half: other,
              distribution: 'rectangular' as const,
              appliesTo: 'all' as const,
            },
          ],
        }),
  };
  return good({ input, areaScale: area / (width * height), level });
}

/** Sheets of layouts before 5 know fewer causes. */
const hasCauses = (cells: NamedCells) => cells.PlacingHalf !== undefined;

/** The causes that sheets of today ask for beside those of every layout. */
function causesOf(cells: NamedCells): Partial<RunInput> {
  if (!hasCauses(cells)) return {};
  const light = LIGHT_SOURCES.find((kind) => kind === single(cells, 'LightSource'));
  const { oblique, ...causes } = wholeCauses({
    f1: maybe(cells, 'MeterF1'),
    f2: maybe(cells, 'MeterF2'),
    repeatability: maybe(cells, 'RepeatPart'),
    repeatabilityReadings: maybe(cells, 'RepeatCount'),
    light: light ?? 'unknown',
    placing: maybe(cells, 'PlacingHalf'),
    linearity: maybe(cells, 'LinearityHalf'),
    room: maybe(cells, 'RoomHalf'),
    throwDistance: maybe(cells, 'ThrowDistance'),
    sensorHeight: maybe(cells, 'SensorHeight'),
  });
  // Sheets of layout 5 do not speak of oblique light.
  return { ...causes, ...(cells.MeterF2 ? { oblique } : {}) };
}

const hasColour = (cells: NamedCells) => cells.PatternA !== undefined || cells.RedReadings !== undefined;
const metres = (millimetres: number | undefined) =>
  millimetres === undefined ? undefined : millimetres / 1000;

function single(cells: NamedCells, name: CellName): RawCell {
  return cells[name]?.values[0]?.[0];
}

/** A number that may have been left empty. */
function maybe(cells: NamedCells, name: CellName): number | undefined {
  const cell = single(cells, name);
  return typeof cell === 'number' ? cell : undefined;
}

function needed(cells: NamedCells, name: CellName, words: string): Outcome<number> {
  const value = maybe(cells, name);
  if (value !== undefined) return good(value);
  return bad(invalid('not-a-number', words, `The sheet has no number for the ${words}.`));
}

/** As typed, not as the sheet works it out; what of it is for the projector's light alone stands beside it. */
function correctionOf(
  cells: NamedCells,
  name: 'white' | Primary,
): Outcome<{ readonly correction: number; readonly light: number }> {
  const factors = all([
    needed(cells, 'CalibrationFactor', 'calibration factor'),
    needed(cells, `${stemOf(name)}Spectral`, `correction for ${name}`),
  ] as const);
  const place = sensorFactor({
    throwDistance: maybe(cells, 'ThrowDistance'),
    sensorHeight: maybe(cells, 'SensorHeight'),
  });
  return chain(factors, ([calibration, spectral]) =>
    good({ correction: calibration * spectral * place, light: spectral * place }),
  );
}

/** Readings of one field and its repeats, colours sorted out of the tiles where there are tiles. */
function fieldOf(cells: NamedCells, name: 'white' | Primary): Outcome<FieldInput> {
  const stem = stemOf(name);
  const isTiled = name !== 'white' && cells.PatternA !== undefined;
  const grid = (end: GridEnd | ''): Grid | undefined =>
    isTiled ? tiles(cells, end, name) : cells[`${stem}${end || 'Readings'}`]?.values;
  const repeats = (['', ...REPEATS] as const).map(grid).filter((found) => found !== undefined);
  const read = all(
    repeats.map((found, k) => displayNumbers(found, NINE, k === 0 ? name : `${name} repeat ${k + 1}`)),
  );
  const ranges = factors(grid('Range') ?? [], NINE, `${name} range factor`);
  const correction = correctionOf(cells, name);
  const parts = all([read, ranges, correction] as const);
  if (!parts.ok) return parts;
  return good({
    repeats: parts.value[0],
    range: parts.value[1],
    ...parts.value[2],
    spectralHalf: maybe(cells, `${stem}Mismatch`),
  });
}

function tiles(cells: NamedCells, end: GridEnd | '', primary: Primary): Grid | undefined {
  const patterns = PATTERNS.map((name) => cells[`${name}${end}`]?.values);
  return patterns.every((pattern) => pattern !== undefined) ? sortTiles(patterns, primary) : undefined;
}

/** The black field as far as it is there: without it the light outputs can be had all the same. */
function blackOf(cells: NamedCells): Outcome<Pick<RunInput, 'black'>> {
  const grid = cells.BlackReadings?.values;
  if (!grid || grid.flat().some(isBlank)) return good({});
  const parts = all([
    displayNumbers(grid, NINE, 'black', 'reading'),
    factors(cells.BlackRange?.values ?? [], NINE, 'black range factor'),
    // The black field is read with the correction for white.
    correctionOf(cells, 'white'),
  ] as const);
  return chain(parts, ([reading, range, correction]) =>
    good({
      black: { repeats: [reading], range, ...correction, spectralHalf: maybe(cells, 'BlackMismatch') },
    }),
  );
}

/** The checkerboard, tile by tile sorted into white and black, as far as it is there. */
function boardOf(cells: NamedCells): Outcome<Pick<RunInput, 'board'>> {
  const grid = cells.BoardReadings?.values;
  if (!grid || grid.flat().some(isBlank)) return good({});
  const parts = all([
    displayNumbers(grid, CHECKER, 'checkerboard', 'reading'),
    needed(cells, 'BoardRange', 'range factor of the checkerboard'),
    correctionOf(cells, 'white'),
  ] as const);
  return chain(parts, ([reading, range, correction]) => {
    const { white, black } = sortBoard(
      reading,
      single(cells, 'BoardTopLeft') === 'black' ? 'black' : 'white',
    );
    return good({
      board: { white, black, range, ...correction, blackSpectralHalf: maybe(cells, 'BlackMismatch') },
    });
  });
}

function ambientOf(cells: NamedCells, luxPerStep: number): Outcome<Pick<RunInput, 'ambient'>> {
  const half = maybe(cells, 'AmbientHalf');
  const readings = cells.AmbientReadings?.values;
  if (!readings) return good(half === undefined ? {} : { ambient: { value: 0, half } });
  const shape = readings.length === 1 ? SINGLE : NINE;
  const parts = all([
    displayNumbers(readings, shape, 'ambient', 'reading'),
    factors(cells.AmbientRange?.values ?? [], shape, 'ambient range factor'),
  ] as const);
  if (!parts.ok) return parts;
  const [display, ranges] = parts.value;
  // Read once, it has one range.
  const range = typeof ranges === 'number' || ranges.length > 1 ? ranges : ranges[0]!;
  const lux = display.map((n, i) => n * (typeof range === 'number' ? range : range[i]!) * luxPerStep);
  // The offset of the meter is common to ambient and field; sheets of before count it twice.
  const shared = hasCauses(cells) ? { range, calibration: maybe(cells, 'CalibrationFactor') ?? 1 } : {};
  return good({ ambient: { value: lux.length === 1 ? lux[0]! : lux, half, ...shared } });
}

/**
 * First and last net illuminance of the centre in white; a last one that is not there yet, or as dark as the room, means
 * that drift was not observed.
 */
function driftOf(
  cells: NamedCells,
  luxPerStep: number,
  light: number,
  ambient: number | readonly number[],
): Pick<RunInput, 'drift'> {
  const last = single(cells, 'LastReading');
  const first = cells.WhiteReadings?.values[1]?.[1];
  const [firstRange, lastRange] = [cells.WhiteRange?.values[1]?.[1], single(cells, 'LastRange')];
  if (isBlank(last) || ![last, first, firstRange, lastRange].every((cell) => typeof cell === 'number'))
    return {};
  const dark = typeof ambient === 'number' ? ambient : ambient[CENTRE]!;
  const net = (reading: RawCell, range: RawCell) =>
    ((reading as number) * (range as number) * luxPerStep - dark) * light;
  const drift = { first: net(first, firstRange), last: net(last, lastRange) };
  return drift.first > 0 && drift.last > 0 ? { drift } : {};
}
