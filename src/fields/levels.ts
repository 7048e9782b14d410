import type { Rgb } from './mark';

/**
 * Grey steps for setting black and white levels, in % of the full signal: four near black, four near white
 * (eight patches as in IT7.228 and IEC 61947-1, from memory; how they lie on the screen is ours).
 */
export const LEVELS: readonly (readonly number[])[] = [
  [0, 5, 10, 15],
  [85, 90, 95, 100],
];

/** Per cent of the full signal as a full-range code value of 8 bits. */
export function codeOf(percent: number): number {
  return Math.round((255 * percent) / 100);
}

export function greyOf(percent: number): Rgb {
  const code = codeOf(percent);
  return [code, code, code];
}

/**
 * What becomes of a full-range code value on a limited-range link: black at 16, white at 235
 * (8-bit coding of ITU-R BT.709, from memory).
 */
export function limitedCode(code: number): number {
  return Math.round(16 + (219 * code) / 255);
}
