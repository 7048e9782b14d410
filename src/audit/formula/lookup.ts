import type { CellValue } from '../../sheets/book';
import { meets, order } from './compare';
import { failed, type Grid, isError, isGrid, lifted, single, toNumber, type Value } from './value';

/** A cell of a range by row and column; with row 0 a whole column. */
export function index([from = null, row = null, column = null]: readonly Value[]): Value {
  if (isError(from)) return from;
  const grid: Grid = isGrid(from) ? from : [[from]];
  const [r, c] = [toNumber(single(row)), toNumber(single(column))];
  if (isError(r)) return r;
  if (isError(c)) return c;
  // In a single row the only index counts along it.
  if (grid.length === 1 && column === null) return grid[0]![r - 1] ?? failed('#REF!');
  const at = Math.max(c, 1) - 1;
  if (r === 0) {
    return at < grid[0]!.length ? grid.map((line) => [line[at]!]) : failed('#REF!');
  }
  return grid[r - 1]?.[at] === undefined ? failed('#REF!') : grid[r - 1]![at]!;
}

/** Place of a value in a row or column: exactly (0), or the last that is not larger, in ascending order (1). */
export const match = lifted((wanted, list = null, how = 1): CellValue => {
  if (isError(wanted)) return wanted;
  const way = toNumber(single(how));
  if (isError(way)) return way;
  if (isError(list)) return list;
  const cells = isGrid(list) ? list.flat() : [list];
  const isLarger = (cell: CellValue) => typeof cell === typeof wanted && Number(order(cell, wanted)) > 0;
  const fits = (cell: CellValue) =>
    way === 0 ? cell !== null && isEqual(cell, wanted) : typeof cell === typeof wanted && !isLarger(cell);
  const at = way === 0 ? cells.findIndex(fits) : cells.map(fits).lastIndexOf(true);
  return at < 0 ? failed('#N/A') : at + 1;
});

/** Texts with `*` and `?` in them are patterns to a spreadsheet, as in COUNTIF. */
function isEqual(cell: CellValue, wanted: CellValue): boolean {
  if (typeof wanted === 'string' && /[*?]/.test(wanted)) {
    return typeof cell === 'string' && meets(cell, `=${wanted}`);
  }
  return order(cell, wanted) === 0;
}
