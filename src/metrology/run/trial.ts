import type { TrialModel } from '../trial';
import type { FieldLayout, Layout, PointsLayout } from './layout';
import type { RunModel } from './model';
import { driftOf } from './sensitivities';

/** A field's numbers laid out for speed. */
interface Flat {
  readonly points: number;
  readonly grossMean: number;
  readonly resolution: number;
  readonly repeatability: number;
  readonly spectral: number;
  /** Digits components in use and the weight of each in the mean. */
  readonly digits: Int32Array;
  readonly weights: Float64Array;
  /** Factors of the light output besides the area. */
  readonly factors: Int32Array;
}

/** The run's own equations, not linearised, for Monte Carlo. Same components, same outputs, same order. */
export function runTrial({ components, outputs, layout }: RunModel): TrialModel {
  const flats = layout.fields.map((field) => flatten(field, [...driftOf(layout, field), ...field.others]));
  const names = layout.fields.map(({ field }) => field.name);
  const place = (id: string) => outputs.findIndex((output) => output.id === id);
  const lumens = names.map((name) => (name === 'black' ? -1 : place(name)));
  const [red, green, blue] = [place('red'), place('green'), place('blue')];
  const [colour, ratio, luminance] = [place('colour'), place('ratio'), place('luminance')];
  const [uniformity, contrast, black] = [place('uniformity'), place('contrast'), names.indexOf('black')];
  const points = layout.fields[0]!.field.gross.map((_, i) => pointReader(layout, layout.fields[0]!, i));
  const board = place('board');
  const tiles = layout.board && ([flatten(layout.board.white), flatten(layout.board.black)] as const);
  const { gain, ambient, width, height, square, driftWhite, screen } = layout;
  const nets = new Float64Array(flats.length);
  const netOf = (flat: Flat, x: Float64Array) =>
    x[gain]! * (x[flat.spectral]! * meanGross(flat, x) - x[ambient]!);
  const evaluate = (x: Float64Array, y: Float64Array) => {
    const area = x[width]! * x[height]! * x[square]!;
    for (let f = 0; f < flats.length; f++) {
      const flat = flats[f]!;
      const net = netOf(flat, x);
      nets[f] = net;
      if (lumens[f]! < 0) continue;
      let flux = net * area;
      for (let j = 0; j < flat.factors.length; j++) flux *= x[flat.factors[j]!]!;
      y[lumens[f]!] = flux;
    }
    if (colour >= 0) {
      y[colour] = y[red]! + y[green]! + y[blue]!;
      y[ratio] = y[colour]! / y[0]!;
    }
    const now = nets[0]! * x[driftWhite]!;
    if (luminance >= 0) y[luminance] = (now * x[screen]!) / Math.PI;
    if (uniformity >= 0) y[uniformity] = leastOverMost(x);
    if (contrast >= 0) y[contrast] = now / nets[black]!;
    if (board >= 0) y[board] = netOf(tiles![0], x) / netOf(tiles![1], x);
  };
  /** Extremes looked for anew: with points of nearly the same light another one may be it in another trial. */
  const leastOverMost = (x: Float64Array) => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = 0; i < points.length; i++) {
      const net = points[i]!(x);
      if (net < least) least = net;
      if (net > most) most = net;
    }
    return least / most;
  };
  return { components, outputs, evaluate };
}

function meanGross(flat: Flat, x: Float64Array): number {
  const { points, resolution, repeatability, digits, weights } = flat;
  let sum = 0;
  for (let i = 0; i < points; i++) sum += x[resolution + i]! + x[repeatability + i]!;
  let mean = flat.grossMean + sum / points;
  for (let j = 0; j < digits.length; j++) mean += weights[j]! * x[digits[j]!]!;
  return mean;
}

function flatten({ field, digits, ...at }: PointsLayout, factors: readonly number[] = []): Flat {
  const points = field.gross.length;
  const used = [...new Set(digits)];
  const count = (place: number) => digits.filter((each) => each === place).length;
  return {
    points,
    grossMean: field.gross.reduce((all, lux) => all + lux, 0) / points,
    resolution: at.resolution,
    repeatability: at.repeatability,
    spectral: at.spectral,
    digits: Int32Array.from(used),
    weights: Float64Array.from(used, (place) => (field.correction * count(place)) / points),
    factors: Int32Array.from(factors),
  };
}

/** Net illuminance at one point of a field. */
function pointReader(
  { gain, ambient, ambientOffsets }: Layout,
  { field, ...at }: FieldLayout,
  point: number,
) {
  const gross = field.gross[point]!;
  const [resolution, repeatability, digits] = [
    at.resolution + point,
    at.repeatability + point,
    at.digits[point]!,
  ];
  const { spectral } = at;
  const { correction } = field;
  const offset = ambientOffsets[point]!;
  return (x: Float64Array) =>
    x[gain]! *
    (x[spectral]! * (gross + x[resolution]! + x[repeatability]! + correction * x[digits]!) -
      x[ambient]! -
      offset);
}
