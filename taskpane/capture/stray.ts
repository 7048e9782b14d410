/*
 * What this window's strip costs on a mirrored screen, where it is part of the picture that is measured. The strip
 * throws its share of the picture's light into the room:
 *
 *   stray light ÷ light of a white picture = strip area ÷ picture area × strip luminance ÷ white luminance
 *
 * All of it counted as if it reached the sensor, so that the true figure is smaller.
 */

/** Colours of the strip, sRGB; the style sheet has the same, and a test compares them. */
export const STRIP = { ground: 0, ink: 140 } as const;

/** Most of the strip that letters and lines cover: measured below 0.2 of it, see the test of the window. */
const INK_SHARE = 0.2;

/** sRGB code → linear light, 0 to 1 (IEC 61966-2-1, from memory). */
export function linear(code: number): number {
  const c = code / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

/** Mean luminance of the strip as a part of white's, at most. */
export const STRIP_LUMINANCE = INK_SHARE * linear(STRIP.ink) + (1 - INK_SHARE) * linear(STRIP.ground);

export interface Stray {
  /** Strip area ÷ picture area. */
  readonly area: number;
  /** Strip luminance ÷ white luminance. */
  readonly luminance: number;
  /** Their product. */
  readonly ofWhite: number;
}

export function strayLight(
  strip: { width: number; height: number },
  picture: { width: number; height: number },
): Stray {
  const whole = picture.width * picture.height;
  const area = whole > 0 ? (strip.width * strip.height) / whole : 0;
  return { area, luminance: STRIP_LUMINANCE, ofWhite: area * STRIP_LUMINANCE };
}

const percent = (part: number) => `${Number((100 * part).toPrecision(2))}\u00a0%`;

/** The estimate with its formula, in a sentence. */
export function strayWords({ area, luminance, ofWhite }: Stray): string {
  return `This strip adds at most ${percent(ofWhite)} of a white picture’s light (${percent(area)} of its area × ${percent(luminance)} of its luminance) and covers ${percent(area)} of the field. It goes while you read.`;
}

/** Where the strip stands: in the corner that is farther from the point. */
export function stripCorner({ u, v }: { readonly u: number; readonly v: number }): string {
  return `${v > 0.5 ? 'top' : 'bottom'} ${u > 0.5 ? 'left' : 'right'}`;
}
