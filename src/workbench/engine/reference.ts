import {
  addressOf,
  columnIndex,
  columnName,
  quoteSheet,
  type Rect,
  SHEET_COLUMNS,
  SHEET_ROWS,
} from '../../sheets/address';
import { ApiError } from '../errors';

const PART = /^\$?([A-Za-z]{1,3})?\$?([1-9][0-9]{0,6})?$/;

/** `B12`, `B12:D14`, `B:C`, `3:4`, with or without `$`, in any case → rectangle; undefined when it is none. */
export function parseAddress(text: string): Rect | undefined {
  const parts = text.trim().split(':');
  if (parts.length > 2) return undefined;
  const [a, b] = [PART.exec(parts[0]!), PART.exec(parts[parts.length - 1]!)];
  if (!a || !b) return undefined;
  const kind = (match: RegExpExecArray) => `${match[1] ? 'c' : ''}${match[2] ? 'r' : ''}`;
  if (kind(a) !== kind(b) || kind(a) === '' || (parts.length === 1 && kind(a) !== 'cr')) return undefined;
  const columns = a[1]
    ? [columnIndex(a[1].toUpperCase()), columnIndex(b[1]!.toUpperCase())]
    : [0, SHEET_COLUMNS - 1];
  const rows = a[2] ? [Number(a[2]) - 1, Number(b[2]) - 1] : [0, SHEET_ROWS - 1];
  const rect = {
    row: Math.min(rows[0]!, rows[1]!),
    column: Math.min(columns[0]!, columns[1]!),
    rows: Math.abs(rows[0]! - rows[1]!) + 1,
    columns: Math.abs(columns[0]! - columns[1]!) + 1,
  };
  return isInside(rect) ? rect : undefined;
}

/** A rectangle within a sheet's limits. */
export function isInside({ row, column, rows, columns }: Rect): boolean {
  return (
    row >= 0 &&
    column >= 0 &&
    rows > 0 &&
    columns > 0 &&
    row + rows <= SHEET_ROWS &&
    column + columns <= SHEET_COLUMNS
  );
}

/** Rectangle → `B12`, `B12:D14`, `B:C` or `3:4`, as Excel writes a range's address. */
export function formatAddress(rect: Rect): string {
  if (rect.rows === SHEET_ROWS && rect.columns === SHEET_COLUMNS) return `1:${SHEET_ROWS}`;
  if (rect.rows === SHEET_ROWS)
    return `${columnName(rect.column)}:${columnName(rect.column + rect.columns - 1)}`;
  if (rect.columns === SHEET_COLUMNS) return `${rect.row + 1}:${rect.row + rect.rows}`;
  return addressOf(rect);
}

/** Whether a word reads as a cell, as `AB12` or `R2C3`. */
export function looksLikeCell(word: string): boolean {
  return /^([A-Za-z]{1,3}[0-9]{1,7}|[Rr]([0-9]*)([Cc][0-9]*)?|[Cc][0-9]*)$/.test(word);
}

/**
 * Excel quotes a sheet name in a reference only when it must: `Run!A1` but `'Run 1'!A1`, and `'AB12'!A1` since
 * that would read as a cell.
 */
export function sheetPrefix(name: string): string {
  const isPlain = /^[A-Za-z_][A-Za-z0-9_.]*$/.test(name) && !looksLikeCell(name);
  return isPlain ? `${name}!` : `${quoteSheet(name)}!`;
}

/** `='Run 1'!$B$2:$D$4` (the `=` may be missing) → sheet name and rectangle; undefined for anything else. */
export function parseReference(text: string): { sheet: string; rect: Rect } | undefined {
  const match = /^=?(?:'((?:[^']|'')+)'|([^'!]+))!(.+)$/.exec(text.trim());
  if (!match) return undefined;
  const rect = parseAddress(match[3]!);
  return rect ? { sheet: (match[1] ?? match[2]!).replace(/''/g, "'"), rect } : undefined;
}

/** The part two rectangles share. */
export function intersection(a: Rect, b: Rect): Rect | undefined {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rows = Math.min(a.row + a.rows, b.row + b.rows) - row;
  const columns = Math.min(a.column + a.columns, b.column + b.columns) - column;
  return rows > 0 && columns > 0 ? { row, column, rows, columns } : undefined;
}

/** The smallest rectangle around cells, given as row and column; undefined where there are none. */
export function around(cells: Iterable<readonly [number, number]>): Rect | undefined {
  let [top, left, bottom, right] = [Infinity, Infinity, -1, -1];
  for (const [row, column] of cells) {
    top = Math.min(top, row);
    left = Math.min(left, column);
    bottom = Math.max(bottom, row);
    right = Math.max(right, column);
  }
  if (bottom < 0) return undefined;
  return { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

/** The first and the last cell of a rectangle. */
export function corners({ row, column, rows, columns }: Rect): (readonly [number, number])[] {
  return [
    [row, column],
    [row + rows - 1, column + columns - 1],
  ];
}

/** Whether a cell lies in a rectangle. */
export function contains({ row, column, rows, columns }: Rect, r: number, c: number): boolean {
  return r >= row && r < row + rows && c >= column && c < column + columns;
}

/** `parseAddress` for what a caller of the API hands in: anything else is Excel's InvalidArgument. */
export function requireAddress(text: string): Rect {
  const rect = parseAddress(text);
  if (!rect) throw new ApiError('InvalidArgument', `"${text}" is not an address.`);
  return rect;
}
