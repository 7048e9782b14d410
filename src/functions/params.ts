import { all, bad, chain, good, invalid, missing, type Outcome } from '../photometry/outcome';
import {
  ambients,
  cameAs,
  displayNumbers,
  factors,
  type GridShape,
  isBlank,
  type RawCell,
  SINGLE,
} from '../photometry/reading';

/**
 * One argument of a custom function: what a person reads about it, what Excel needs to know, and how the raw
 * argument becomes a checked value.
 */
export interface Param<T> {
  readonly description: string;
  readonly unit?: string;
  readonly isOptional: boolean;
  readonly isMatrix: boolean;
  /** Set where the formula bar offers a list. */
  readonly choices?: { readonly id: string; readonly values: readonly string[] };
  parse(raw: unknown, name: string): Outcome<T>;
}

export type Cells = readonly (readonly RawCell[])[];

/** Excel hands a matrix as rows of cells, and one cell as 1 × 1; a scalar as itself. */
function cells(raw: unknown): Cells {
  if (!Array.isArray(raw)) return [[plainCell(raw)]];
  // Nearly every grid is rows of plain values already, and passes as it is.
  if (raw.every((row) => Array.isArray(row) && !row.some(isObject))) return raw;
  return raw.map((row) => (Array.isArray(row) ? row : [row]).map(plainCell));
}

/** The one cell of an argument that is no range; a longer range is a slip, not its first cell. */
function scalar(raw: unknown, name: string): Outcome<RawCell> {
  const given = cells(raw);
  const width = given.reduce((most, row) => Math.max(most, row.length), 0);
  if (given.length === 1 && width === 1) return good(given[0]![0]);
  return bad(
    invalid('shape', name, `The ${name} must be one cell; it is a range of ${given.length} × ${width}.`),
  );
}

/** Why a cell gives no value: it is empty, or holds an error. Undefined where there is something to read. */
function holdsNothing(
  cell: RawCell,
  where: string,
  wanted: 'a number' | 'a text',
  missingSays: string,
): Outcome<never> | undefined {
  if (isBlank(cell)) return bad(missing(where, missingSays));
  if (typeof cell !== 'object' || cell === null) return undefined;
  return bad(
    invalid('error-cell', where, `The ${where} must be ${wanted}; the cell holds the error ${cell.error}.`),
  );
}

function isNumber(raw: unknown): raw is number {
  return typeof raw === 'number' && Number.isFinite(raw);
}

function isObject(cell: unknown): boolean {
  return typeof cell === 'object' && cell !== null;
}

/** An error cell arrives as an object with the error's code; everything else as a plain value. */
function plainCell(cell: unknown): RawCell {
  if (typeof cell === 'object' && cell !== null) {
    const code = (cell as { code?: unknown }).code;
    return { error: typeof code === 'string' ? code : '#VALUE!' };
  }
  return cell as RawCell;
}

/** A grid of display readings. Where 0 cannot be a reading it counts as missing: Excel hands empty cells over as 0. */
export function readings(
  shape: GridShape,
  label: string,
  zero: 'reading' | 'missing' = 'missing',
): Param<number[]> {
  return {
    description: `${label} readings as on the display, ${shape.rows} × ${shape.columns} cells as seen on the screen, top left first`,
    isOptional: false,
    isMatrix: true,
    parse: (raw) => displayNumbers(cells(raw), shape, label, zero),
  };
}

/** Three 3 × 3 patterns or any grid that must be complete but is only passed on. */
export function grid(shape: GridShape, label: string): Param<number[][]> {
  const inner = readings(shape, label);
  return {
    ...inner,
    parse: (raw, name) => {
      const flat = inner.parse(raw, name);
      if (!flat.ok) return flat;
      return good(
        Array.from({ length: shape.rows }, (_, r) =>
          flat.value.slice(r * shape.columns, (r + 1) * shape.columns),
        ),
      );
    },
  };
}

/** Cells that are only looked at, whatever stands in them. */
export function anyCells(description: string): Param<Cells> {
  return { description, isOptional: false, isMatrix: true, parse: (raw) => good(cells(raw)) };
}

/** A factor for the whole grid, or one a reading. Omitted: 1. */
export function perReading(shape: GridShape, description: string): Param<number | number[]> {
  return {
    description: `${description}: one for all, or ${shape.rows} × ${shape.columns}; 1 if left out`,
    isOptional: true,
    isMatrix: true,
    parse: (raw, name) => (isOmitted(raw) ? good(1) : factors(isNumber(raw) ? raw : cells(raw), shape, name)),
  };
}

/**
 * Ambient illuminance in lux, one for all or one a point. Left out: 0. An empty text is not left out: our sheets
 * show one until ambient has been measured, and taking it for 0 would pass a gross result off as net.
 */
export function ambient(shape: GridShape): Param<number | number[]> {
  return {
    description: `ambient illuminance to take off, with the projector's light blocked${shape === SINGLE ? '' : `: one for all, or ${shape.rows} × ${shape.columns}`}; 0 if left out`,
    unit: 'lx',
    isOptional: true,
    isMatrix: true,
    parse: (raw) =>
      raw === null || raw === undefined ? good(0) : ambients(isNumber(raw) ? raw : cells(raw), shape),
  };
}

/** What corrects the projector's light alone, once ambient is taken off. Left out: 1. */
export const light = (of = ''): Param<number> =>
  number(
    `correction${of} of the projector's light alone, once ambient is taken off: spectral correction × factor for the sensor's place`,
    '',
    { moreThan: 0 },
    1,
  );

export interface Bounds {
  readonly moreThan?: number;
  readonly min?: number;
  readonly max?: number;
  readonly whole?: boolean;
}

/**
 * A number within bounds. With `otherwise` the argument may be left out; with `infinity` that text stands for an
 * infinite number.
 */
export function number(
  description: string,
  unit: string,
  bounds: Bounds = {},
  otherwise?: number,
  infinity?: string,
): Param<number> {
  return {
    description:
      otherwise === undefined ? description : `${description}; ${plainly(otherwise, infinity)} if left out`,
    ...(unit ? { unit } : {}),
    isOptional: otherwise !== undefined,
    isMatrix: false,
    parse: (raw, name) => {
      if (isOmitted(raw) && otherwise !== undefined) return good(otherwise);
      if (isNumber(raw) && outside(raw, bounds) === undefined) return good(raw);
      const given = scalar(raw, name);
      if (!given.ok) return given;
      const cell = given.value;
      if (infinity !== undefined && cell === infinity) return good(Number.POSITIVE_INFINITY);
      const nothing = holdsNothing(cell, name, 'a number', `The ${name} is missing.`);
      if (nothing) return nothing;
      const orInfinity = infinity === undefined ? '' : ` or "${infinity}" where it is infinite`;
      if (typeof cell !== 'number' || !Number.isFinite(cell)) {
        return bad(
          invalid('not-a-number', name, `The ${name} must be a number${orInfinity}; it is "${cell}".`),
        );
      }
      const bound = outside(cell, bounds);
      const objection = bound && bound + orInfinity;
      return objection
        ? bad(
            invalid(
              'out-of-bounds',
              name,
              `The ${name} must be ${objection}; it is ${cell}${cell === 0 ? ' (an empty cell counts as 0)' : ''}.`,
            ),
          )
        : good(cell);
    },
  };
}

/** A number that an empty cell must not stand for: 0 is taken for one, and whoever means 0 can say so. */
export function present(inner: Param<number>): Param<number> {
  return {
    ...inner,
    description: `${inner.description} (for 0 write 1E-300)`,
    parse: (raw, name) =>
      chain(inner.parse(raw, name), (value) =>
        value !== 0
          ? good(value)
          : bad(missing(name, `The ${name} is missing: the cell is empty or 0; for 0 write 1E-300.`)),
      ),
  };
}

/** A column in which an empty cell, which arrives as 0, must not pass for a number. */
export function filled(inner: Param<number[]>, instead: string): Param<number[]> {
  return {
    ...inner,
    parse: (raw, name) =>
      chain(inner.parse(raw, name), (values) => {
        const problems = values.flatMap((value, i) =>
          value === 0
            ? [
                missing(
                  `${name} in row ${i + 1}`,
                  `The ${name} in row ${i + 1} is missing: the cell is empty or 0; ${instead}.`,
                ),
              ]
            : [],
        );
        return problems.length > 0 ? { ok: false, problems } : good(values);
      }),
  };
}

function plainly(value: number, infinity = 'infinite'): string {
  return Number.isFinite(value) ? String(value) : infinity;
}

/** Numbers of a column or row, in order; a cell that holds none is named by its place. */
export function column(description: string, kind: 'number' | 'number or ∞'): Param<number[]> {
  return {
    description,
    isOptional: false,
    isMatrix: true,
    parse: (raw, name) => inRows(raw, name, (cell, where) => numberAt(cell, where, kind)),
  };
}

function numberAt(cell: RawCell, where: string, kind: 'number' | 'number or ∞'): Outcome<number> {
  if (kind === 'number or ∞' && cell === '∞') return good(Number.POSITIVE_INFINITY);
  if (isBlank(cell)) return bad(missing(where, `A value is missing: ${where}.`));
  if (typeof cell === 'number' && Number.isFinite(cell)) return good(cell);
  return bad(
    invalid(
      'not-a-number',
      where,
      `The ${where} must be a ${kind === 'number' ? kind : 'number or "∞" where it is infinite'}; it is ${cameAs(cell)}.`,
    ),
  );
}

/** Numbers of a table, row by row; a cell that holds none is named by its place. */
export function table(description: string, kind: 'number' | 'number or ∞' = 'number'): Param<number[][]> {
  return {
    description,
    isOptional: false,
    isMatrix: true,
    parse: (raw, name) =>
      all(
        cells(raw).map((row, r) =>
          all(row.map((cell, c) => numberAt(cell, `${name} in row ${r + 1}, column ${c + 1}`, kind))),
        ),
      ) as Outcome<number[][]>,
  };
}

/** Texts of a column, in order. */
export function words(description: string): Param<string[]> {
  return {
    description,
    isOptional: false,
    isMatrix: true,
    parse: (raw, name) =>
      inRows(
        raw,
        name,
        (cell, where) =>
          holdsNothing(cell, where, 'a text', `A value is missing: ${where}.`) ?? good(String(cell)),
      ),
  };
}

/** Every cell of a column or row, named by its place. */
function inRows<T>(
  raw: unknown,
  name: string,
  read: (cell: RawCell, where: string) => Outcome<T>,
): Outcome<T[]> {
  return all(
    cells(raw)
      .flat()
      .map((cell, i) => read(cell, `${name} in row ${i + 1}`)),
  );
}

function outside(value: number, { moreThan, min, max, whole }: Bounds): string | undefined {
  if (moreThan !== undefined && !(value > moreThan)) return `greater than ${moreThan}`;
  if (min !== undefined && value < min) return `at least ${min}`;
  if (max !== undefined && value > max) return `at most ${max}`;
  if (whole && !Number.isInteger(value)) return 'a whole number';
  return undefined;
}

/** One of a list. With `otherwise` the argument may be left out. */
export function choice<const T extends string>(
  description: string,
  id: string,
  values: readonly T[],
  otherwise?: T,
): Param<T> {
  const byWord = new Map<unknown, T>(
    values.flatMap((value) => [[value.toLowerCase(), value] as const, [value, value] as const]),
  );
  return {
    description: otherwise === undefined ? description : `${description}; ${otherwise} if left out`,
    isOptional: otherwise !== undefined,
    isMatrix: false,
    choices: { id, values },
    parse: (raw, name) => {
      if (otherwise !== undefined && isOmitted(raw)) return good(otherwise);
      const exact = byWord.get(raw);
      if (exact !== undefined) return good(exact);
      const given = scalar(raw, name);
      if (!given.ok) return given;
      const cell = given.value;
      if (isBlank(cell)) {
        if (otherwise !== undefined) return good(otherwise);
        return bad(missing(name, `The ${name} is missing: one of ${values.join(', ')}.`));
      }
      const found = byWord.get(String(cell).trim().toLowerCase());
      if (found !== undefined) return good(found);
      return bad(
        invalid('choice', name, `The ${name} must be one of ${values.join(', ')}; it is ${cameAs(cell)}.`),
      );
    },
  };
}

/** Free text that a parser of the domain checks, e.g. an aspect ratio. The list is offered, not enforced. */
export function text<T>(
  description: string,
  id: string,
  offered: readonly string[],
  parser: (text: string) => Outcome<T>,
): Param<T> {
  return {
    description,
    isOptional: false,
    isMatrix: false,
    choices: { id, values: offered },
    parse: (raw, name) => {
      const given = scalar(raw, name);
      if (!given.ok) return given;
      const cell = given.value;
      return holdsNothing(cell, name, 'a text', `The ${name} is missing.`) ?? parser(String(cell));
    },
  };
}

/** An optional argument that was left out. Excel gives null; an empty text, as guards hand over, counts too. */
function isOmitted(raw: unknown): boolean {
  return raw === null || raw === undefined || raw === '';
}
