import { imageSize, inMetres, quadrilateral, SIDE_DIFFERENCE_LIMIT } from '../../src/photometry/image';
import { measuringPoints, type Point } from '../../src/photometry/points';
import { METRES } from '../../src/photometry/units';
import type { ImageSetup } from '../../src/sheets/runsetup';

/** An image's size with the places to measure at, for the drawing under the form. */
export interface Picture {
  /** Metres; the mean of opposite sides where the image is not square. */
  readonly width: number;
  readonly height: number;
  /** m² */
  readonly area: number;
  readonly points: readonly (Point & { readonly leftCm: number; readonly topCm: number })[];
  /** What is worth saying about the shape. */
  readonly remark: string;
}

/** Size, area and points of an image, or why there is none. */
export function pictureOf(image: ImageSetup, withCorners: boolean): Picture | { readonly problem: string } {
  const size = sizeOf(image);
  if ('problem' in size) return size;
  const { width, height, area, remark } = size;
  const points = measuringPoints(withCorners ? 13 : 9).map((point) => ({
    ...point,
    leftCm: point.u * width * 100,
    topCm: point.v * height * 100,
  }));
  return { width, height, area, points, remark };
}

type Size = Omit<Picture, 'points'>;

function sizeOf(image: ImageSetup): Size | { readonly problem: string } {
  if (image.shape === 'rectangle') {
    const { known, length, across, down, unit } = image;
    const size = imageSize(known, length * METRES[unit], { across, down });
    return size.ok ? { ...size.value, remark: '' } : { problem: size.problems[0]!.message };
  }
  const sides = inMetres(image, image.unit);
  const { top, right, bottom, left } = sides;
  const found = quadrilateral(sides);
  if (!found.ok) return { problem: found.problems[0]!.message };
  const { area, worstSideDifference } = found.value;
  const isUneven = worstSideDifference > SIDE_DIFFERENCE_LIMIT;
  return {
    width: (top + bottom) / 2,
    height: (left + right) / 2,
    area,
    remark: isUneven
      ? `Opposite sides differ by ${(worstSideDifference * 100).toFixed(1)} %: square the image by moving the projector. Correcting it digitally throws light away.`
      : '',
  };
}
