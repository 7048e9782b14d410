import { all, bad, good, invalid, missing, type Outcome, type Problem } from './outcome';
import { isOverRange } from './overrange';
import { CORNER_NAMES, GRID_NAMES } from './points';
import { type IlluminanceUnit, LUX } from './units';

/** What can stand in a cell where a reading is expected. */
export type RawCell = number | string | boolean | null | undefined | { readonly error: string };

/** Illuminances above this are refused as slips of the hand: twice full sunlight, in lux. */
export const ABSURD_LUX = 200_000;

/** A grid of readings that a person fills in, and how to speak of its places. */
export interface GridShape {
  readonly rows: number;
  readonly columns: number;
  readonly names: readonly string[];
  /** "point", "corner", "tile": the word before the number. */
  readonly word: string;
  readonly first: number;
}
export const NINE: GridShape = { rows: 3, columns: 3, names: GRID_NAMES, word: 'point', first: 1 };
export const CORNERS: GridShape = { rows: 2, columns: 2, names: CORNER_NAMES, word: 'point', first: 10 };
export const CHECKER: GridShape = {
  rows: 4,
  columns: 4,
  names: Array.from({ length: 16 }, (_, i) => `row ${Math.floor(i / 4) + 1}, column ${(i % 4) + 1}`),
  word: 'tile',
  first: 1,
};
export const SINGLE: GridShape = { rows: 1, columns: 1, names: ['centre'], word: 'point', first: 5 };

/** How a number on the display becomes an illuminance, for one field. */
export interface Conversion {
  readonly unit: IlluminanceUnit;
  /** Range factor (1, 10, 100 …): one for the grid, or one a reading. */
  readonly range: number | readonly number[];
  /** Calibration factor of the meter, which bears on whatever it reads; 1 where unknown. */
  readonly correction: number;
  /**
   * Correction of the projector's light alone: spectral correction for this colour × factor for the sensor's place. The
   * room's light has neither its spectrum nor its direction. 1 where left out.
   */
  readonly light?: number;
  /** Ambient illuminance in lux to take off: one for the image, or one a point. */
  readonly ambient: number | readonly number[];
}

/** True for a cell that holds nothing. */
export function isBlank(cell: RawCell): boolean {
  return cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '');
}

/** What came in place of what was asked for: `"few"`, `the error #DIV/0!`. */
export function cameAs(cell: RawCell): string {
  return typeof cell === 'object' && cell !== null ? `the error ${cell.error}` : `"${cell}"`;
}

/** "white reading at top left (point 1)". */
export function placeOf(label: string, shape: GridShape, index: number): string {
  return `${label} reading at ${shape.names[index]} (${shape.word} ${shape.first + index})`;
}

/** Whether a cell holds a display number. `zero` tells whether 0 can be a reading here. */
function isReading(cell: RawCell, zero: 'reading' | 'missing'): cell is number {
  return (
    typeof cell === 'number' &&
    cell < Number.POSITIVE_INFINITY &&
    (cell > 0 || (cell === 0 && zero === 'reading'))
  );
}

/** What is wrong with a cell that holds no display number. */
function objection(cell: RawCell, where: string): Problem {
  if (isBlank(cell)) return missing(where, `The ${where} is missing.`);
  if (cell === 0) {
    return missing(where, `The ${where} is missing: the cell is empty or 0, and 0 cannot be a reading here.`);
  }
  if (isOverRange(cell)) {
    return invalid(
      'over-range',
      where,
      `The ${where} is over range: choose a higher range on the meter and read again.`,
    );
  }
  if (typeof cell === 'object' && cell !== null) {
    return invalid(
      'error-cell',
      where,
      `The ${where} must be the number on the display; the cell holds the error ${cell.error}.`,
    );
  }
  if (typeof cell !== 'number' || Number.isNaN(cell)) {
    return invalid('not-a-number', where, `The ${where} must be the number on the display; it is "${cell}".`);
  }
  if (cell < 0) return invalid('negative', where, `The ${where} must not be negative; it is ${cell}.`);
  return invalid('too-large', where, `The ${where} must be a finite number.`);
}

/** One number a point, or every problem of all points. Words are made only for what is wrong: this runs in every cell. */
function collect(count: number, one: (index: number) => number | Problem): Outcome<number[]> {
  const numbers: number[] = [];
  const problems: Problem[] = [];
  for (let i = 0; i < count; i++) {
    const result = one(i);
    if (typeof result === 'number') numbers.push(result);
    else problems.push(result);
  }
  return problems.length > 0 ? { ok: false, problems } : good(numbers);
}

/**
 * A grid of cells → display numbers, row by row. Reports every bad cell, not only the first.
 * @param label what the grid holds, e.g. "white"
 */
export function displayNumbers(
  cells: readonly (readonly RawCell[])[],
  shape: GridShape,
  label: string,
  zero: 'reading' | 'missing' = 'missing',
): Outcome<number[]> {
  if (!fits(cells, shape)) return bad(shapeProblem(cells, shape, `${label} readings`));
  const { rows, columns } = shape;
  return collect(rows * columns, (i) => {
    const cell = cells[Math.floor(i / columns)]![i % columns];
    return isReading(cell, zero) ? cell : objection(cell, placeOf(label, shape, i));
  });
}

function fits(cells: readonly (readonly unknown[])[], { rows, columns }: GridShape): boolean {
  return cells.length === rows && cells.every((row) => row.length === columns);
}

function shapeProblem(
  cells: readonly (readonly unknown[])[],
  { rows, columns }: GridShape,
  where: string,
): Problem {
  const came = `${cells.length} × ${cells.reduce((most, row) => Math.max(most, row.length), 0)}`;
  return invalid('shape', where, `The ${where} must be a grid of ${rows} × ${columns} cells; it is ${came}.`);
}

/** One factor for all, or a grid of them in the shape of the readings, each greater than 0. */
export function factors(
  value: number | readonly (readonly RawCell[])[],
  shape: GridShape,
  label: string,
): Outcome<number | number[]> {
  return perPoint(value, shape, label, (n) => (n > 0 ? undefined : 'must be greater than 0'));
}

/** Ambient illuminance in lux: one for all, or a grid in the shape of the readings, each at least 0. */
export function ambients(
  value: number | readonly (readonly RawCell[])[],
  shape: GridShape,
): Outcome<number | number[]> {
  return perPoint(value, shape, 'ambient illuminance', (n) => (n >= 0 ? undefined : 'must not be negative'));
}

function perPoint(
  value: number | readonly (readonly RawCell[])[],
  shape: GridShape,
  label: string,
  objection: (n: number) => string | undefined,
): Outcome<number | number[]> {
  const check = (cell: RawCell, where: string): Outcome<number> => {
    if (isBlank(cell)) return bad(missing(where, `The ${where} is missing.`));
    if (typeof cell !== 'number' || !Number.isFinite(cell)) {
      return bad(invalid('not-a-number', where, `The ${where} must be a number; it is ${cameAs(cell)}.`));
    }
    const wrong = objection(cell);
    return wrong
      ? bad(
          invalid(
            'out-of-bounds',
            where,
            `The ${where} ${wrong}; it is ${cell}${cell === 0 ? ' (an empty cell counts as 0)' : ''}.`,
          ),
        )
      : good(cell);
  };
  if (typeof value === 'number') return check(value, label);
  if (value.length === 1 && value[0]?.length === 1) return check(value[0][0], label);
  if (!fits(value, shape)) return bad(shapeProblem(value, shape, label));
  return all(
    value
      .flat()
      .map((cell, i) => check(cell, `${label} at ${shape.names[i]} (${shape.word} ${shape.first + i})`)),
  );
}

/**
 * Display numbers → net illuminances in lux: (number × range factor × lux per unit × correction − ambient) × light.
 * The display is not the illuminance until the range factor is applied (common practice). A meter that makes R times too
 * much of the projector's light shows (R·E + E_ambient) ÷ calibration: ambient is taken off first, and what corrects the
 * projector's light, 1 ÷ R, is for the rest alone.
 */
export function netIlluminances(
  display: readonly number[],
  shape: GridShape,
  label: string,
  conversion: Conversion,
): Outcome<number[]> {
  const { range, ambient, correction, light = 1, unit } = conversion;
  return collect(display.length, (i) => {
    const gross = display[i]! * at(range, i) * LUX[unit] * correction;
    const net = gross - at(ambient, i);
    if (gross <= ABSURD_LUX && net >= 0) return net * light;
    const where = placeOf(label, shape, i);
    if (gross > ABSURD_LUX) {
      return invalid(
        'too-large',
        where,
        `The ${where} gives ${round(gross)} lx; more than ${ABSURD_LUX} lx is refused. Check range factor and unit.`,
      );
    }
    return invalid(
      'ambient-exceeds',
      where,
      `Ambient exceeds the reading at ${shape.word} ${shape.first + i} (${shape.names[i]}, ${label}): ${round(gross)} lx read, ${round(at(ambient, i))} lx ambient.`,
    );
  });
}

export function at(value: number | readonly number[], index: number): number {
  return typeof value === 'number' ? value : value[index]!;
}

function round(value: number): number {
  return Number(value.toPrecision(6));
}

/** Arithmetic mean. */
export function mean(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
