import type { Point } from '../photometry/points';
import { BLACK, type Mark, type Size, WHITE } from './mark';
import { tiles } from './split';

/** Rows and columns of the checkerboard (IEC 61947-1 and IT7.228, from memory). */
const BOARD = 4;

/** The 4 × 4 checkerboard. `topLeft` is what the tile at the top left shows; the other choice is the inverse. */
export function boardMarks(size: Size, topLeft: 'white' | 'black'): Mark[] {
  const first = topLeft === 'white' ? 0 : 1;
  return tiles(size, BOARD, BOARD, (row, column) => ((row + column) % 2 === first ? WHITE : BLACK));
}

/** Centres of the checkerboard's tiles, numbered row by row from 1. */
export const BOARD_POINTS: readonly Point[] = Array.from({ length: BOARD * BOARD }, (_, i) => {
  const [row, column] = [Math.floor(i / BOARD), i % BOARD];
  return {
    number: i + 1,
    name: `row ${row + 1} column ${column + 1}`,
    u: (2 * column + 1) / (2 * BOARD),
    v: (2 * row + 1) / (2 * BOARD),
  };
});
