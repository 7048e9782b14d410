import { mean } from '../../photometry/reading';
import type { Output } from '../model';
import type { FieldLayout, Layout, PointsLayout } from './layout';

/*
 * First derivatives at the components' values, where every factor is 1 and every offset 0:
 *   E = gain · spectral · (linearity · (mean of gross · placing + mean resolution + mean repeatability
 *       + correction · digits) − light · (ambient + calibration · digits of its range))
 *   Φ = E · width · height · size · square · drift · sensor · room · others
 * Gross is corrected as if all of it were the projector's light; what of the correction is for that light alone stands
 * before ambient light as well, which was read without it. A meter that shows (R·E + ambient) ÷ calibration is the model:
 * a wrong R bears on what is left when ambient is taken off. A wrong linearity, another placing or the display bear on the
 * whole reading.
 */

const blank = (layout: Layout) => new Array<number>(layout.components.length).fill(0);

/** Mean net illuminance of a field, lux. */
export function meanNet(layout: Layout, points: PointsLayout): Output {
  const c = blank(layout);
  const { field } = points;
  const n = field.gross.length;
  const gross = mean(field.gross);
  const value = gross - field.light * layout.ambientMean;
  c[layout.gain] = value;
  putFactors(c, points, gross, value);
  c[layout.ambient] = -field.light;
  for (let i = 0; i < n; i++) putPoint(c, points, i, 1 / n);
  // Tiles are as many as they are; the room's light was read at its own points.
  const read = layout.ambientDigits;
  for (const at of read) c[at]! -= (field.light * layout.ambientScale) / read.length;
  return { id: field.name, label: `${field.name} illuminance`, unit: 'lx', value, sensitivities: c };
}

/** Net illuminance of one point of a field, lux. */
export function pointNet(layout: Layout, points: PointsLayout, point: number): Output {
  const c = blank(layout);
  const { field } = points;
  const gross = field.gross[point]!;
  const value = gross - field.light * (layout.ambientMean + layout.ambientOffsets[point]!);
  c[layout.gain] = value;
  putFactors(c, points, gross, value);
  c[layout.ambient] = -field.light;
  putPoint(c, points, point, 1);
  const offset = layout.ambientDigits[point];
  if (offset !== undefined) c[offset]! -= field.light * layout.ambientScale;
  return {
    id: '',
    label: `${field.name} illuminance at point ${point + 1}`,
    unit: 'lx',
    value,
    sensitivities: c,
  };
}

/** What bears on all readings of a field alike, or on what is left of them without ambient light. */
function putFactors(c: number[], { spectral, linearity }: PointsLayout, gross: number, net: number): void {
  for (const { at, share } of spectral) c[at]! += share * net;
  if (linearity >= 0) c[linearity]! += gross;
}

/** What bears on one reading, which weighs so much. */
function putPoint(c: number[], { field, ...at }: PointsLayout, i: number, weight: number): void {
  c[at.resolution + i] = weight;
  c[at.repeatability + i] = weight;
  if (at.placing >= 0) c[at.placing + i] = weight * field.gross[i]!;
  c[at.digits[i]!]! += weight * field.correction;
}

/** An output times factors, each a component at its value: f·y, with ∂/∂f = y·f ÷ value. */
export function times(layout: Layout, output: Output, factors: readonly number[]): Output {
  const product = factors.reduce((all, at) => all * layout.components[at]!.value, 1);
  const value = output.value * product;
  const n = output.sensitivities.length;
  const sensitivities = new Array<number>(n);
  for (let i = 0; i < n; i++) sensitivities[i] = output.sensitivities[i]! * product;
  for (const at of factors) sensitivities[at]! += value / layout.components[at]!.value;
  return { ...output, value, sensitivities };
}

/** What the image's area is made of. */
export function areaOf({ width, height, size, square }: Layout): number[] {
  return [width, height, square, ...(size < 0 ? [] : [size])];
}

/** Which drift a field takes part in; black takes part in none. */
export function driftOf(layout: Layout, { field: { name } }: FieldLayout): number[] {
  if (name === 'black') return [];
  return [name === 'white' ? layout.driftWhite : layout.driftColours];
}

/** Light output of a field, lumens. */
export function fieldOutput(layout: Layout, field: FieldLayout, net: Output): Output {
  const factors = [...areaOf(layout), ...layout.everywhere, ...driftOf(layout, field), ...field.others];
  const { name } = field.field;
  return { ...times(layout, net, factors), id: name, label: `${name} light output`, unit: 'lm' };
}
