import { WORKED_RUN } from '../references/photometry';

/** Grids as Excel hands them over: rows of cells. */
export type Grid = readonly (readonly unknown[])[];

export const WHITE: Grid = WORKED_RUN.nine;
export const CORNERS: Grid = WORKED_RUN.corners;
export const AREA = WORKED_RUN.width * WORKED_RUN.height;

export const filled = (rows: number, columns: number, value: unknown): unknown[][] =>
  Array.from({ length: rows }, () => Array.from({ length: columns }, () => value));

/** Nine equal readings. */
export const nine = (value: unknown) => filled(3, 3, value);

/** The grid with one cell replaced. */
export function withCell(grid: Grid, row: number, column: number, value: unknown): unknown[][] {
  return grid.map((cells, r) => cells.map((cell, c) => (r === row && c === column ? value : cell)));
}

/** A 4 × 4 board, white at the top left: whites 400 and 410 lx, blacks 1 and 2 lx. */
export const BOARD: Grid = [
  [400, 2, 410, 1],
  [2, 400, 1, 410],
  [410, 1, 400, 2],
  [1, 410, 2, 400],
];
