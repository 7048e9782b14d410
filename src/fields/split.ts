import type { Mark, Rgb, Size } from './mark';

/**
 * Borders of `parts` equal parts of a length, on whole pixels: border i lies at round(i · length ÷ parts), so no
 * part is more than a pixel larger than another and nothing is left over at the end.
 */
export function borders(length: number, parts: number): number[] {
  return Array.from({ length: parts + 1 }, (_, i) => Math.round((i * length) / parts));
}

/** The image cut into rows × columns, each tile in the colour that `colourOf(row, column)` gives, counted from 0. */
export function tiles(
  { width, height }: Size,
  rows: number,
  columns: number,
  colourOf: (row: number, column: number) => Rgb,
): Mark[] {
  const [x, y] = [borders(width, columns), borders(height, rows)];
  return Array.from({ length: rows * columns }, (_, i) => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    return {
      x: x[column]!,
      y: y[row]!,
      width: x[column + 1]! - x[column]!,
      height: y[row + 1]! - y[row]!,
      colour: colourOf(row, column),
    };
  });
}
