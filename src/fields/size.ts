import { bad, good, invalid, type Outcome } from '../photometry/outcome';
import type { Size } from './mark';

/** Native resolutions of projectors in common use, smallest first. */
export const RESOLUTIONS: readonly Size[] = [
  { width: 800, height: 600 },
  { width: 1024, height: 768 },
  { width: 1280, height: 720 },
  { width: 1280, height: 800 },
  { width: 1400, height: 1050 },
  { width: 1920, height: 1080 },
  { width: 1920, height: 1200 },
  { width: 2560, height: 1600 },
  { width: 3840, height: 2160 },
  { width: 4096, height: 2160 },
];

/** Smaller than any projector; larger than any, and within what browsers let a canvas have. */
const LEAST = 320;
const MOST = 8192;

/** "1920 × 1080". */
export function sizeText({ width, height }: Size): string {
  return `${width} × ${height}`;
}

/** Width and height as typed: "1920 x 1080", "1920×1080", "1920 1080". */
export function parseSize(text: string): Outcome<Size> {
  const found = /^\s*(\d{1,6})\s*(?:[x×*,;]|\s)\s*(\d{1,6})\s*(?:px|pixels?)?\s*$/i.exec(text);
  if (!found) {
    return bad(
      invalid(
        'shape',
        'resolution',
        `The resolution is two whole numbers of pixels such as 1920 x 1080; it is "${text}".`,
      ),
    );
  }
  const [width, height] = [Number(found[1]), Number(found[2])];
  const fits = [width, height].every((length) => length >= LEAST && length <= MOST);
  if (fits) return good({ width, height });
  return bad(
    invalid(
      'out-of-bounds',
      'resolution',
      `Width and height must be from ${LEAST} to ${MOST} pixels; they are ${width} and ${height}.`,
    ),
  );
}
