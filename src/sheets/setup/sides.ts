import { inMetres, quadrilateral } from '../../photometry/image';
import type { ImageSetup } from '../runsetup';

/** Why no image can have the four sides and two diagonals of a set-up; undefined where one can. */
export function sidesProblem(image: ImageSetup | undefined): string | undefined {
  if (image?.shape !== 'four sides') return undefined;
  const found = quadrilateral(inMetres(image, image.unit));
  return found.ok ? undefined : found.problems[0]!.message;
}
