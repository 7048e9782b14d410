/** A pixel is 1/96 in, a point 1/72 in. */
export const POINTS_PER_PIXEL = 0.75;
/** Widest digit of Excel's normal font in pixels, and what a column adds to its characters (ECMA-376 18.3.1.13). */
const DIGIT_PIXELS = 7;
const PADDING_PIXELS = 5;

export function charactersOf(pixels: number): number {
  return (pixels - PADDING_PIXELS) / DIGIT_PIXELS;
}
export function pixelsOf(characters: number): number {
  return characters * DIGIT_PIXELS + PADDING_PIXELS;
}
