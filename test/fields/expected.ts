import type { FieldId } from '../../src/fields/field';
import type { Size } from '../../src/fields/mark';
import { pictureOf, type Raster } from './raster';

/*
 * The fields as they were specified, written down without the code that draws them: rows of tiles, one letter
 * each. The 4 × 4 checkerboard and the eight levels are those of IEC 61947-1 and IT7.228 (from memory), the
 * arrangement of the levels and of the tiled patterns is ours.
 */
const COLOURS: Readonly<Record<string, readonly number[]>> = {
  K: [0, 0, 0],
  W: [255, 255, 255],
  R: [255, 0, 0],
  G: [0, 255, 0],
  B: [0, 0, 255],
  // 5, 10, 15, 85, 90, 95 % of 255: 12.75, 25.5, 38.25, 216.75, 229.5, 242.25.
  a: [13, 13, 13],
  b: [26, 26, 26],
  c: [38, 38, 38],
  x: [217, 217, 217],
  y: [230, 230, 230],
  z: [242, 242, 242],
};

export const TILED: Readonly<Record<Exclude<FieldId, 'grid'>, readonly string[]>> = {
  white: ['W'],
  black: ['K'],
  ambient: ['K'],
  red: ['R'],
  green: ['G'],
  blue: ['B'],
  levels: ['Kabc', 'xyzW'],
  'pattern-a': ['RGB', 'GBR', 'BRG'],
  'pattern-b': ['GBR', 'BRG', 'RGB'],
  'pattern-c': ['BRG', 'RGB', 'GBR'],
  board: ['WKWK', 'KWKW', 'WKWK', 'KWKW'],
  'board-inverse': ['KWKW', 'WKWK', 'KWKW', 'WKWK'],
};

/** Which of n equal parts a pixel lies in; part i begins at i · length ÷ n, half a pixel rounded up, in whole numbers. */
function partOf(pixel: number, length: number, n: number): number {
  let part = 0;
  while (part + 1 < n && pixel >= Math.floor((2 * (part + 1) * length + n) / (2 * n))) part++;
  return part;
}

/** The picture that a field has to be. */
export function expectedPicture(id: keyof typeof TILED, size: Size): Raster {
  const rows = TILED[id];
  const rowOf = (y: number) => partOf(y, size.height, rows.length);
  return pictureOf(
    size,
    (x, y) => COLOURS[rows[rowOf(y)]![partOf(x, size.width, rows[0]!.length)]!]!,
    (y) => rowOf(y) === rowOf(y - 1),
  );
}
