import { mean } from '../../photometry/reading';
import type { Output } from '../model';
import type { FieldLayout, Layout, PointsLayout } from './layout';

/*
 * First derivatives at the components' values, where every factor is 1 and every offset 0:
 *   E = gain · (spectral · (mean gross + mean resolution + mean repeatability + correction · digits) − ambient)
 *   Φ = E · width · height · square · drift · others
 */

const blank = (layout: Layout) => new Array<number>(layout.components.length).fill(0);

/** Mean net illuminance of a field, lux. */
export function meanNet(layout: Layout, { field, ...at }: PointsLayout): Output {
  const c = blank(layout);
  const n = field.gross.length;
  const gross = mean(field.gross);
  const value = gross - layout.ambientMean;
  c[layout.gain] = value;
  c[at.spectral] = gross;
  c[layout.ambient] = -1;
  for (let i = 0; i < n; i++) {
    c[at.resolution + i] = 1 / n;
    c[at.repeatability + i] = 1 / n;
    c[at.digits[i]!]! += field.correction / n;
  }
  return { id: field.name, label: `${field.name} illuminance`, unit: 'lx', value, sensitivities: c };
}

/** Net illuminance of one point of a field, lux. */
export function pointNet(layout: Layout, { field, ...at }: PointsLayout, point: number): Output {
  const c = blank(layout);
  const gross = field.gross[point]!;
  const value = gross - layout.ambientMean - layout.ambientOffsets[point]!;
  c[layout.gain] = value;
  c[at.spectral] = gross;
  c[layout.ambient] = -1;
  c[at.resolution + point] = 1;
  c[at.repeatability + point] = 1;
  c[at.digits[point]!] = field.correction;
  return {
    id: '',
    label: `${field.name} illuminance at point ${point + 1}`,
    unit: 'lx',
    value,
    sensitivities: c,
  };
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

/** Which drift a field takes part in; black takes part in none. */
export function driftOf(layout: Layout, { field: { name } }: FieldLayout): number[] {
  if (name === 'black') return [];
  return [name === 'white' ? layout.driftWhite : layout.driftColours];
}

/** Light output of a field, lumens. */
export function fieldOutput(layout: Layout, field: FieldLayout, net: Output): Output {
  const factors = [layout.width, layout.height, layout.square, ...driftOf(layout, field), ...field.others];
  const { name } = field.field;
  return { ...times(layout, net, factors), id: name, label: `${name} light output`, unit: 'lm' };
}
