import type { TrialModel } from '../trial';
import type { FieldLayout, Layout, PointsLayout } from './layout';
import type { RunModel } from './model';
import { areaOf, driftOf } from './sensitivities';

/** A field's numbers laid out for speed. */
interface Flat {
  readonly points: number;
  readonly grossMean: number;
  readonly resolution: number;
  readonly repeatability: number;
  readonly spectral: Int32Array;
  readonly shares: Float64Array;
  /** −1 where there is none. */
  readonly linearity: number;
  readonly placing: number;
  readonly light: number;
  readonly gross: readonly number[];
  /** Digits components in use and the weight of each in the mean. */
  readonly digits: Int32Array;
  readonly weights: Float64Array;
}

/** The run's own equations, not linearised, for Monte Carlo. Same components, same outputs, same order. */
export function runTrial({ components, outputs, layout }: RunModel): TrialModel {
  const flats = layout.fields.map(flatten);
  /** Of each field's light output besides the area. */
  const factors = layout.fields.map((field) => Int32Array.of(...driftOf(layout, field), ...field.others));
  const names = layout.fields.map(({ field }) => field.name);
  const place = (id: string) => outputs.findIndex((output) => output.id === id);
  // −1 of black, which has no light output.
  const lumens = names.map(place);
  const [red, green, blue] = [place('red'), place('green'), place('blue')];
  const [colour, ratio, luminance] = [place('colour'), place('ratio'), place('luminance')];
  const [uniformity, contrast, black] = [place('uniformity'), place('contrast'), names.indexOf('black')];
  const points = layout.fields[0]!.field.gross.map((_, i) => pointReader(layout, layout.fields[0]!, i));
  const board = place('board');
  const tiles = layout.board && ([flatten(layout.board.white), flatten(layout.board.black)] as const);
  const { gain, ambient, everywhere, driftWhite, screen } = layout;
  const sides = areaOf(layout);
  const offsets = [...new Set(layout.ambientDigits)];
  const weights = offsets.map(
    (at) =>
      (layout.ambientScale * layout.ambientDigits.filter((each) => each === at).length) /
      layout.ambientDigits.length,
  );
  const nets = new Float64Array(flats.length);
  const netOf = (flat: Flat, x: Float64Array) => {
    let dark = x[ambient]!;
    for (let j = 0; j < offsets.length; j++) dark += weights[j]! * x[offsets[j]!]!;
    return x[gain]! * mismatchOf(flat, x) * (linearityOf(flat, x) * meanGross(flat, x) - flat.light * dark);
  };
  const evaluate = (x: Float64Array, y: Float64Array) => {
    let common = 1;
    for (let j = 0; j < everywhere.length; j++) common *= x[everywhere[j]!]!;
    let area = common;
    for (let j = 0; j < sides.length; j++) area *= x[sides[j]!]!;
    for (let f = 0; f < flats.length; f++) {
      const net = netOf(flats[f]!, x);
      nets[f] = net;
      if (lumens[f]! < 0) continue;
      let flux = net * area;
      const others = factors[f]!;
      for (let j = 0; j < others.length; j++) flux *= x[others[j]!]!;
      y[lumens[f]!] = flux;
    }
    if (colour >= 0) {
      y[colour] = y[red]! + y[green]! + y[blue]!;
      y[ratio] = y[colour]! / y[0]!;
    }
    const now = nets[0]! * x[driftWhite]!;
    if (luminance >= 0) y[luminance] = (now * common * x[screen]!) / Math.PI;
    y[uniformity] = leastOverMost(x);
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

/** By how much the correction for a field's light is wrong; 1 where it is right. */
function mismatchOf({ spectral, shares }: Response, x: Float64Array): number {
  let mismatch = 0;
  for (let j = 0; j < spectral.length; j++) mismatch += shares[j]! * x[spectral[j]!]!;
  return mismatch;
}
/** By how much all readings of a field are wrong, whatever light is in them. */
const linearityOf = ({ linearity }: Response, x: Float64Array) => (linearity < 0 ? 1 : x[linearity]!);
type Response = Pick<Flat, 'spectral' | 'shares' | 'linearity'>;

function meanGross(flat: Flat, x: Float64Array): number {
  const { points, resolution, repeatability, placing, gross, digits, weights } = flat;
  let sum = 0;
  for (let i = 0; i < points; i++) sum += x[resolution + i]! + x[repeatability + i]!;
  if (placing >= 0) for (let i = 0; i < points; i++) sum += gross[i]! * (x[placing + i]! - 1);
  let mean = flat.grossMean + sum / points;
  for (let j = 0; j < digits.length; j++) mean += weights[j]! * x[digits[j]!]!;
  return mean;
}

function flatten({ field, digits, ...at }: PointsLayout): Flat {
  const points = field.gross.length;
  const used = [...new Set(digits)];
  const count = (place: number) => digits.filter((each) => each === place).length;
  return {
    points,
    gross: field.gross,
    light: field.light,
    grossMean: field.gross.reduce((all, lux) => all + lux, 0) / points,
    resolution: at.resolution,
    repeatability: at.repeatability,
    placing: at.placing,
    ...responseParts(at),
    digits: Int32Array.from(used),
    weights: Float64Array.from(used, (place) => (field.correction * count(place)) / points),
  };
}

function responseParts({ spectral, linearity }: Pick<PointsLayout, 'spectral' | 'linearity'>): Response {
  return {
    spectral: Int32Array.from(spectral, ({ at }) => at),
    shares: Float64Array.from(spectral, ({ share }) => share),
    linearity,
  };
}

/** Net illuminance at one point of a field. */
function pointReader(
  { gain, ambient, ambientOffsets, ambientDigits, ambientScale }: Layout,
  { field, ...at }: FieldLayout,
  point: number,
) {
  const gross = field.gross[point]!;
  const [resolution, repeatability, digits] = [
    at.resolution + point,
    at.repeatability + point,
    at.digits[point]!,
  ];
  const placing = at.placing < 0 ? -1 : at.placing + point;
  const response = responseParts(at);
  const { correction, light } = field;
  const offset = ambientOffsets[point]!;
  const room = ambientDigits[point] ?? -1;
  return (x: Float64Array) => {
    const held = placing < 0 ? gross : gross * x[placing]!;
    const read = held + x[resolution]! + x[repeatability]! + correction * x[digits]!;
    const dark = x[ambient]! + offset + (room < 0 ? 0 : ambientScale * x[room]!);
    return x[gain]! * mismatchOf(response, x) * (linearityOf(response, x) * read - light * dark);
  };
}
