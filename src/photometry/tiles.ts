/**
 * Three tiled patterns: the tile in row r, column c of pattern p shows primary (r + c + p) mod 3 of red,
 * green, blue. Over the three patterns every tile shows each primary once while the picture level stays
 * constant, so that a projector cannot boost one full field (IDMS 1.03 chapter 15, from memory; the
 * arrangement is ours).
 */
export const PRIMARIES = ['red', 'green', 'blue'] as const;
export type Primary = (typeof PRIMARIES)[number];

/** Which primary a tile shows; pattern, row and column count from 0. */
export function tilePrimary(pattern: number, row: number, column: number): Primary {
  return PRIMARIES[(row + column + pattern) % 3]!;
}

/** In which of the three patterns the tile at (row, column) shows a primary. */
export function patternShowing(primary: Primary, row: number, column: number): number {
  return (PRIMARIES.indexOf(primary) + 6 - row - column) % 3;
}

/** Readings taken pattern by pattern as they lie on the screen → the 3 × 3 grid of one primary. */
export function sortTiles<T>(patterns: readonly (readonly (readonly T[])[])[], primary: Primary): T[][] {
  return [0, 1, 2].map((row) =>
    [0, 1, 2].map((column) => patterns[patternShowing(primary, row, column)]![row]![column]!),
  );
}
