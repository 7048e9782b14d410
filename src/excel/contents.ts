import { addressOf, cellName, type Rect, rectOf } from '../sheets/address';
import { moveFormula } from '../sheets/move';
import type { Plan, PlanCell } from '../sheets/plan';
import { cellInput } from './cellinput';
import { rectangles } from './rectangles';

/*
 * What stands in the cells of a plan, in few bytes: cells without anything are not sent where that is cheaper, and
 * a formula that repeats is sent once and copied by the host.
 */

/** About what a range costs in a message, and what one copied from another costs, in bytes. */
const RANGE = 350;
const COPY = 700;
/** What a cell costs in a matrix that leaves it alone: `null,`. */
const LEFT_ALONE = 5;

export function writeFormats(sheet: Excel.Worksheet, plan: Plan, areas: readonly string[]): void {
  const formatAt = (at: string) => {
    const format = plan.cells[at]?.format;
    return format === 'General' ? undefined : format;
  };
  for (const area of areas.flatMap((whole) => bandsOf(whole, (at) => formatAt(at) !== undefined)))
    sheet.getRange(area).numberFormat = matrix(area, (at) => formatAt(at) ?? null) as string[][];
}

export function writeContents(sheet: Excel.Worksheet, plan: Plan, areas: readonly string[]): void {
  const copies = areas.flatMap((area) => repeatsIn(plan, area));
  const copied = new Set(copies.flatMap(({ others }) => others));
  const contentAt = (at: string) => {
    const { formula, value } = plan.cells[at] ?? {};
    return copied.has(at) ? null : (formula ?? cellInput(value ?? null));
  };
  for (const area of areas.flatMap((whole) => bandsOf(whole, (at) => contentAt(at) !== null)))
    sheet.getRange(area).formulas = matrix(area, contentAt);
  for (const { first, range } of copies) sheet.getRange(range).copyFrom(sheet.getRange(first), 'Formulas');
}

interface Repeat {
  readonly first: string;
  readonly range: string;
  readonly others: readonly string[];
}

/** Rectangles of one formula that follows its cell, where copying is less to send than writing each. */
function repeatsIn(plan: Plan, area: string): Repeat[] {
  const keys = new Map<string, string>();
  for (const at of placesOf(rectOf(area))) {
    const { formula } = plan.cells[at] ?? {};
    if (formula === undefined) continue;
    keys.set(at, keyBeside(plan, keys, at, formula) ?? at);
  }
  return rectangles(keys).flatMap(({ range }) => {
    const [first, ...others] = placesOf(rectOf(range));
    const saved = others.reduce((sum, at) => sum + sizeOf(plan.cells[at]!), 0);
    return saved > COPY ? [{ first: first!, range, others }] : [];
  });
}

/** The key of the neighbour on the left or above whose formula, copied here, is this one. */
function keyBeside(
  plan: Plan,
  keys: ReadonlyMap<string, string>,
  at: string,
  formula: string,
): string | undefined {
  const { row, column } = rectOf(at);
  for (const [down, right] of [
    [0, 1],
    [1, 0],
  ] as const) {
    if (row < down || column < right) continue;
    const beside = cellName(row - down, column - right);
    const own = plan.cells[beside]?.formula;
    if (own !== undefined && keys.has(beside) && moveFormula(own, down, right) === formula)
      return keys.get(beside);
  }
  return undefined;
}

/** What a formula costs in a message: JSON within JSON, where a quotation mark takes four bytes. */
function sizeOf({ formula = '' }: PlanCell): number {
  return formula.length + 5 + 3 * (formula.split('"').length - 1);
}

/**
 * The parts of an area that hold anything, as bands of rows cut to their own columns. Two bands are one where the
 * cells between them cost less than another range.
 */
function bandsOf(area: string, isFilled: (at: string) => boolean): string[] {
  const { row, column, rows, columns } = rectOf(area);
  const bands: Rect[] = [];
  for (let r = row; r < row + rows; r++) {
    const filled: number[] = [];
    for (let c = column; c < column + columns; c++) if (isFilled(cellName(r, c))) filled.push(c);
    if (filled.length === 0) continue;
    const [from, to] = [filled[0]!, filled.at(-1)!];
    let band: Rect = { row: r, column: from, rows: 1, columns: to - from + 1 };
    for (let last = bands.at(-1); last; last = bands.at(-1)) {
      const both = around(last, band);
      const added = (both.rows * both.columns - size(last) - size(band)) * LEFT_ALONE;
      if (added > RANGE) break;
      bands.pop();
      band = both;
    }
    bands.push(band);
  }
  return bands.map(addressOf);
}

const size = ({ rows, columns }: Rect) => rows * columns;

function around(a: Rect, b: Rect): Rect {
  const [row, column] = [Math.min(a.row, b.row), Math.min(a.column, b.column)];
  return {
    row,
    column,
    rows: Math.max(a.row + a.rows, b.row + b.rows) - row,
    columns: Math.max(a.column + a.columns, b.column + b.columns) - column,
  };
}

function placesOf({ row, column, rows, columns }: Rect): string[] {
  return Array.from({ length: rows * columns }, (_, i) =>
    cellName(row + Math.floor(i / columns), column + (i % columns)),
  );
}

function matrix<T>(area: string, cell: (at: string) => T): T[][] {
  const { row, column, rows, columns } = rectOf(area);
  return Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_, c) => cell(cellName(row + r, column + c))),
  );
}
