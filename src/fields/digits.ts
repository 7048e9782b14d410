import type { Mark, Rgb } from './mark';

/** Figures of 3 × 5 dots, row by row: drawn as rectangles they stay as sharp as the field. */
const FIGURES = [
  '111101101101111',
  '010110010010111',
  '111001111100111',
  '111001111001111',
  '101101111001001',
  '111100111001111',
  '111100111101111',
  '111001001001001',
  '111101111101111',
  '111101111001111',
] as const;

const FIGURE_WIDTH = 3;
export const FIGURE_HEIGHT = 5;

/** A whole number from 0 on as marks, top left at x, y; `dot` is the side of one dot in pixels. */
export function numberMarks(number: number, x: number, y: number, dot: number, colour: Rgb): Mark[] {
  return [...String(number)].flatMap((figure, place) =>
    [...FIGURES[Number(figure)]!].flatMap((lit, i) =>
      lit === '0'
        ? []
        : [
            {
              x: x + dot * (place * (FIGURE_WIDTH + 1) + (i % FIGURE_WIDTH)),
              y: y + dot * Math.floor(i / FIGURE_WIDTH),
              width: dot,
              height: dot,
              colour,
            },
          ],
    ),
  );
}

/** Width of a number in dots. */
export function numberWidth(number: number): number {
  return String(number).length * (FIGURE_WIDTH + 1) - 1;
}
