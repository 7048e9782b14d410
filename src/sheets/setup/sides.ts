import { type FourSides, quadrilateral } from '../../photometry/image';
import { METRES } from '../../photometry/units';
import type { ImageSetup } from '../runsetup';

/** The lengths of an image that is not square, in metres. */
export function sidesOf({
  unit,
  top,
  right,
  bottom,
  left,
  falling,
  rising,
}: Extract<ImageSetup, { shape: 'four sides' }>): FourSides {
  const m = METRES[unit];
  return {
    top: top * m,
    right: right * m,
    bottom: bottom * m,
    left: left * m,
    falling: falling * m,
    rising: rising * m,
  };
}

/** Why no image can have the four sides and two diagonals of a set-up; undefined where one can. */
export function sidesProblem(image: ImageSetup | undefined): string | undefined {
  if (image?.shape !== 'four sides') return undefined;
  const found = quadrilateral(sidesOf(image));
  return found.ok ? undefined : found.problems[0]!.message;
}
