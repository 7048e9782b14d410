import { CORNER_POINTS, NINE_POINTS } from '../photometry/points';
import { BLACK, fill, type Mark, type Rgb, type Size, WHITE } from './mark';

/** Half the signal: the lines between must not outshine the one-pixel lines that focus is judged by. */
const LINE: Rgb = [128, 128, 128];

/** Cells of the grid in the image's height. */
const CELLS = 10;

/**
 * Focus and geometry. The outermost pixels form a frame: where one of its sides cannot be seen, the image is cut
 * off. Cells are square and counted from the centre, so a bent, stretched or leaning image shows. At each of the
 * nine points lie one-pixel lines, upright and level: they tell focus, and where they show bands or grey areas
 * the signal does not have the projector's own resolution. Crosses mark points 10 to 13.
 */
export function gridMarks(size: Size): Mark[] {
  return [
    fill(size, BLACK),
    ...lines(size),
    ...NINE_POINTS.flatMap(({ u, v }) => focus(size, u, v)),
    ...CORNER_POINTS.flatMap(({ u, v }) => cross(size, u, v)),
    ...frame(size),
  ];
}

function lines({ width, height }: Size): Mark[] {
  const cell = Math.max(2, Math.round(height / CELLS));
  const upright = positions(width, cell).map(([x, thick, colour]) => ({
    x,
    y: 0,
    width: thick,
    height,
    colour,
  }));
  const level = positions(height, cell).map(([y, thick, colour]) => ({
    x: 0,
    y,
    width,
    height: thick,
    colour,
  }));
  return [...upright, ...level];
}

/** Start, thickness and colour of parallel lines, the same from both ends; the middle one is two pixels where the length is even. */
function positions(length: number, cell: number): [number, number, Rgb][] {
  const middle = Math.floor((length - 1) / 2);
  const found: [number, number, Rgb][] = [];
  for (let x = middle - cell; x > 0; x -= cell) found.push([x, 1, LINE], [length - 1 - x, 1, LINE]);
  found.push([middle, length % 2 === 0 ? 2 : 1, WHITE]);
  return found;
}

/** A patch of one-pixel lines around a point: upright on its left half, level on its right half. */
function focus({ width, height }: Size, u: number, v: number): Mark[] {
  const half = 2 * Math.max(4, Math.round(Math.min(width, height) / 72));
  const [x, y] = [Math.round(u * width) - half, Math.round(v * height) - half];
  const marks: Mark[] = [{ x: x - 2, y: y - 2, width: 2 * half + 4, height: 2 * half + 4, colour: BLACK }];
  for (let i = 0; i < half; i += 2) marks.push({ x: x + i, y, width: 1, height: 2 * half, colour: WHITE });
  for (let i = 0; i < 2 * half; i += 2)
    marks.push({ x: x + half, y: y + i, width: half, height: 1, colour: WHITE });
  return marks;
}

function cross({ width, height }: Size, u: number, v: number): Mark[] {
  const arm = Math.max(4, Math.round(Math.min(width, height) / 72));
  const [x, y] = [Math.round(u * width), Math.round(v * height)];
  return [
    { x: x - arm, y, width: 2 * arm + 1, height: 1, colour: WHITE },
    { x, y: y - arm, width: 1, height: 2 * arm + 1, colour: WHITE },
  ];
}

function frame({ width, height }: Size): Mark[] {
  return [
    { x: 0, y: 0, width, height: 1, colour: WHITE },
    { x: 0, y: height - 1, width, height: 1, colour: WHITE },
    { x: 0, y: 0, width: 1, height, colour: WHITE },
    { x: width - 1, y: 0, width: 1, height, colour: WHITE },
  ];
}
