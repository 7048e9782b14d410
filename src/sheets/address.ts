/** Cell addresses: `B12`, `B12:D14`, and rectangles of zero-based rows and columns. */

/** Size of a sheet in every Excel since 2007 ("Excel specifications and limits"). */
export const SHEET_ROWS = 1_048_576;
export const SHEET_COLUMNS = 16_384;

export interface Rect {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** 0 → A, 25 → Z, 26 → AA. */
export function columnName(index: number): string {
  let name = '';
  for (let n = index + 1; n > 0; n = Math.floor((n - 1) / 26)) {
    name = String.fromCharCode(65 + ((n - 1) % 26)) + name;
  }
  return name;
}

/** A → 0, AA → 26. */
export function columnIndex(name: string): number {
  let n = 0;
  for (const letter of name) n = n * 26 + letter.charCodeAt(0) - 64;
  return n - 1;
}

/** `(11, 1)` → `B12`. */
export function cellName(row: number, column: number): string {
  return `${columnName(column)}${row + 1}`;
}

const AREA = /^\$?([A-Z]{1,3})\$?([1-9][0-9]{0,6})(?::\$?([A-Z]{1,3})\$?([1-9][0-9]{0,6}))?$/;

/** Whether a text is an address that `rectOf` reads: one cell or one range, no whole rows or columns. */
export function isAddress(text: string): boolean {
  return AREA.test(text);
}

/** `B12` or `$B$12:D14` → rectangle. Throws on anything else: addresses come from plans, not from people. */
export function rectOf(address: string): Rect {
  const found = AREA.exec(address);
  if (!found) throw new Error(`"${address}" is not a cell or a range such as B12 or B12:D14`);
  const r1 = Number(found[2]) - 1;
  const c1 = columnIndex(found[1]!);
  if (found[3] === undefined) return { row: r1, column: c1, rows: 1, columns: 1 };
  const r2 = Number(found[4]) - 1;
  const c2 = columnIndex(found[3]);
  return {
    row: Math.min(r1, r2),
    column: Math.min(c1, c2),
    rows: Math.abs(r2 - r1) + 1,
    columns: Math.abs(c2 - c1) + 1,
  };
}

/** Whether a rectangle lies in another one, edges included. */
export function contains(outer: Rect, inner: Rect): boolean {
  return (
    inner.row >= outer.row &&
    inner.column >= outer.column &&
    inner.row + inner.rows <= outer.row + outer.rows &&
    inner.column + inner.columns <= outer.column + outer.columns
  );
}

/** Rectangle → `B12` or `B12:D14`. */
export function addressOf(rect: Rect): string {
  const first = cellName(rect.row, rect.column);
  if (rect.rows === 1 && rect.columns === 1) return first;
  return `${first}:${cellName(rect.row + rect.rows - 1, rect.column + rect.columns - 1)}`;
}

/** Every cell of a range, row by row: `B1:C2` → B1 C1 B2 C2. */
export function cellsOf(address: string): string[] {
  const { row, column, rows, columns } = rectOf(address);
  const cells: string[] = [];
  for (let r = 0; r < rows; r++) for (let c = 0; c < columns; c++) cells.push(cellName(row + r, column + c));
  return cells;
}

/** How many cells an area has. */
export function cellCount(address: string): number {
  const { rows, columns } = rectOf(address);
  return rows * columns;
}

/** `B12:D14` → `$B$12:$D$14`. */
export function absolute(address: string): string {
  return address.replace(/\$/g, '').replace(/([A-Z]+)([0-9]+)/g, '$$$1$$$2');
}

/** Quotes a sheet name for a reference: `Run 1` → `'Run 1'`, `Anna's` → `'Anna''s'`. */
export function quoteSheet(name: string): string {
  return `'${name.replace(/'/g, "''")}'`;
}

/** `('Run 1', 'B12:D14')` → `='Run 1'!$B$12:$D$14`. */
export function refersTo(sheet: string, address: string): string {
  return `=${quoteSheet(sheet)}!${absolute(address)}`;
}
