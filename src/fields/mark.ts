/** Red, green and blue as full-range sRGB code values, 0 to 255. */
export type Rgb = readonly [number, number, number];

/** Width and height in pixels, whole numbers. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * A filled rectangle on whole pixels. Fields are made of nothing else, so no edge can be blended, whether a
 * canvas or an SVG viewer draws them. Later marks cover earlier ones.
 */
export interface Mark extends Size {
  /** Pixels from the image's left and top edge. */
  readonly x: number;
  readonly y: number;
  readonly colour: Rgb;
}

export const BLACK: Rgb = [0, 0, 0];
export const WHITE: Rgb = [255, 255, 255];

/** The whole image in one colour. */
export function fill({ width, height }: Size, colour: Rgb): Mark {
  return { x: 0, y: 0, width, height, colour };
}

/** A colour as canvas and SVG take it: `#00ff00`. */
export function hex(colour: Rgb): string {
  return `#${colour.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}
