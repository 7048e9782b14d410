import type { Rect } from '../../sheets/address';
import { ApiError } from '../errors';

/**
 * What is given to a range: one value for all its cells, or a two-dimensional array of exactly its size
 * (reference of Range.values). Anything else is InvalidArgument.
 */
export function matrixOf<T>(given: unknown, { rows, columns }: Rect): (row: number, column: number) => T {
  if (!Array.isArray(given)) return () => given as T;
  const isRight =
    given.length === rows && given.every((line) => Array.isArray(line) && line.length === columns);
  if (!isRight)
    throw new ApiError(
      'InvalidArgument',
      `The number of rows or columns in the input array doesn't match the size or dimensions of the range (${rows} × ${columns}).`,
    );
  return (row, column) => (given as T[][])[row]![column]!;
}

/** The value all cells of a range share; null where they differ, as the API answers. */
export function common<T>(
  { row, column, rows, columns }: Rect,
  get: (row: number, column: number) => T,
): T | null {
  const first = get(row, column);
  for (let r = row; r < row + rows; r++)
    for (let c = column; c < column + columns; c++) if (get(r, c) !== first) return null;
  return first;
}
