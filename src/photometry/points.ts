/**
 * Where the meter is held. Points are numbered and readings laid out as seen facing the screen, top left first.
 *
 * Nine points: the centres of 3 × 3 equal rectangles (ISO/IEC 21118 as retold by an industry body; the
 * geometry itself is arithmetic). Points 10 to 13: on the line from each corner to the centre, at 10 % of that
 * line from the corner (IEC 61947-1, from memory).
 */
export interface Point {
  readonly number: number;
  readonly name: string;
  /** Fraction of the image's width from its left edge, and of its height from its top edge. */
  readonly u: number;
  readonly v: number;
}

const ROWS = ['top', 'middle', 'bottom'] as const;
const COLUMNS = ['left', 'centre', 'right'] as const;

/** Names of the nine grid positions, row by row: "top left" … "bottom right". */
export const GRID_NAMES: readonly string[] = ROWS.flatMap((row) =>
  COLUMNS.map((column) => `${row} ${column}`),
);

/** Names of points 10 to 13, in the order of a 2 × 2 grid. */
export const CORNER_NAMES: readonly string[] = [
  'top left corner',
  'top right corner',
  'bottom left corner',
  'bottom right corner',
];

/** 10 % of the way from the corner to the centre is 5 % of the whole width and height. */
const CORNER_INSET = 0.05;

export const NINE_POINTS: readonly Point[] = GRID_NAMES.map((name, i) => ({
  number: i + 1,
  name,
  u: (2 * (i % 3) + 1) / 6,
  v: (2 * Math.floor(i / 3) + 1) / 6,
}));

export const CORNER_POINTS: readonly Point[] = CORNER_NAMES.map((name, i) => ({
  number: i + 10,
  name,
  u: i % 2 === 0 ? CORNER_INSET : 1 - CORNER_INSET,
  v: i < 2 ? CORNER_INSET : 1 - CORNER_INSET,
}));

/** The point whose reading is taken again at the end of a run. */
export const CENTRE = 4;

/** Nine or thirteen points of an image. */
export function measuringPoints(count: 9 | 13): readonly Point[] {
  return count === 9 ? NINE_POINTS : [...NINE_POINTS, ...CORNER_POINTS];
}
