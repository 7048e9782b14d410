import type { Mark, Size } from '../../src/fields/mark';

/** A picture: three bytes a pixel, row by row from the top left. */
export interface Raster extends Size {
  readonly rgb: Uint8Array;
}

/** What a drawing program that knows nothing but filled rectangles makes of marks. */
export function paint({ width, height }: Size, marks: readonly Mark[]): Raster {
  const rgb = new Uint8Array(width * height * 3);
  for (const mark of marks) {
    const line = new Uint8Array(mark.width * 3);
    for (let i = 0; i < line.length; i++) line[i] = mark.colour[i % 3]!;
    for (let y = mark.y; y < mark.y + mark.height; y++) rgb.set(line, (y * width + mark.x) * 3);
  }
  return { width, height, rgb };
}

/** A picture of one colour a pixel. Rows that `sameRow` calls equal to the one above are copied. */
export function pictureOf(
  { width, height }: Size,
  colourAt: (x: number, y: number) => readonly number[],
  sameRow: (y: number) => boolean = () => false,
): Raster {
  const rgb = new Uint8Array(width * height * 3);
  for (let y = 0; y < height; y++) {
    const at = y * width * 3;
    if (y > 0 && sameRow(y)) rgb.copyWithin(at, at - width * 3, at);
    else for (let x = 0; x < width; x++) rgb.set(colourAt(x, y), at + x * 3);
  }
  return { width, height, rgb };
}

/** "" if two pictures are the same, byte for byte; else where they first differ and how many pixels do. */
export function difference(seen: Raster, expected: Raster): string {
  const sizes = [seen, expected].map(({ width, height }) => `${width} x ${height}`);
  if (sizes[0] !== sizes[1]) return `size ${sizes.join(' instead of ')}`;
  if (Buffer.from(seen.rgb.buffer, seen.rgb.byteOffset, seen.rgb.length).equals(expected.rgb)) return '';
  let first = -1;
  let count = 0;
  for (let i = 0; i < seen.rgb.length; i += 3) {
    if ([0, 1, 2].every((c) => seen.rgb[i + c] === expected.rgb[i + c])) continue;
    if (first < 0) first = i;
    count++;
  }
  const pixel = first / 3;
  const show = ({ rgb }: Raster) => [...rgb.subarray(first, first + 3)].join(',');
  return `${count} pixels, first at ${pixel % seen.width}, ${Math.floor(pixel / seen.width)}: ${show(seen)} instead of ${show(expected)}`;
}
