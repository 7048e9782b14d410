import type { Point } from '../photometry/points';
import { FIGURE_HEIGHT, numberMarks, numberWidth } from './digits';
import { BLACK, type Mark, type Rgb, type Size } from './mark';

/** A place to hold the meter at: fractions of width and height, and the number beside it. */
export type Marker = Pick<Point, 'number' | 'u' | 'v'>;

/** Grey on black shows on every field and is no bright extra on a dark one. */
const GREY: Rgb = [128, 128, 128];

/** Marks over a field that show where the meter goes: four arms that leave the place itself free, and its number. */
export function markerMarks(size: Size, { number, u, v }: Marker): Mark[] {
  const small = Math.min(size.width, size.height);
  const thick = Math.max(2, 2 * Math.round(small / 540));
  const free = Math.round(small / 45);
  const arm = Math.round(small / 15);
  const [x, y] = [Math.round(u * size.width), Math.round(v * size.height)];
  const half = thick / 2;
  const arms: Mark[] = [
    { x: x - free - arm, y: y - half, width: arm, height: thick, colour: GREY },
    { x: x + free, y: y - half, width: arm, height: thick, colour: GREY },
    { x: x - half, y: y - free - arm, width: thick, height: arm, colour: GREY },
    { x: x - half, y: y + free, width: thick, height: arm, colour: GREY },
  ];
  // Figures 3 % of the image's height: 4 cm on a screen of 1.2 m, read from where the meter is held.
  const dot = Math.max(2, Math.round(small / 160));
  const [wide, high] = [dot * (numberWidth(number) + 2), dot * (FIGURE_HEIGHT + 2)];
  // Towards the centre of the image, so that a corner's number is not cut off.
  const left = u > 0.5 ? x - free - wide : x + free;
  const top = v > 0.5 ? y - free - high : y + free;
  return [
    ...arms.map((mark) => around(mark, half)),
    ...arms,
    { x: left, y: top, width: wide, height: high, colour: BLACK },
    ...numberMarks(number, left + dot, top + dot, dot, GREY),
  ].map((mark) => within(mark, size));
}

function around(mark: Mark, by: number): Mark {
  return {
    x: mark.x - by,
    y: mark.y - by,
    width: mark.width + 2 * by,
    height: mark.height + 2 * by,
    colour: BLACK,
  };
}

function within(mark: Mark, size: Size): Mark {
  const [x, y] = [Math.max(0, mark.x), Math.max(0, mark.y)];
  return {
    ...mark,
    x,
    y,
    width: Math.max(0, Math.min(size.width, mark.x + mark.width) - x),
    height: Math.max(0, Math.min(size.height, mark.y + mark.height) - y),
  };
}
