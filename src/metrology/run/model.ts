import { bad, good, invalid, type Outcome, type Problem } from '../../photometry/outcome';
import { ratio, sum } from '../derive';
import { CLEAR_SQUARED } from '../linear';
import { combined, type Model, type Output } from '../model';
import { runProblems } from './check';
import { layoutOf } from './components';
import { type FieldName, PRIMARIES, type RunInput } from './input';
import type { FieldLayout, Layout, PointsLayout } from './layout';
import { digitOn } from './prepare';
import { driftOf, fieldOutput, meanNet, pointNet, times } from './sensitivities';

export interface RunModel extends Model {
  readonly layout: Layout;
  readonly extremes: Extremes;
}

/** Points (from 0) whose ratio is the uniformity: smallest and largest net white reading. */
interface Extremes {
  readonly least: number;
  readonly most: number;
  /**
   * How many other points lie so near to one of the two that their own scatter, or how the meter was held there, might
   * make them it. The linear model holds the two points fixed: with rivals it is only rough, and the trials, which look
   * for the extremes anew each time, show it.
   */
  readonly rivals: number;
}

/**
 * The uncertainty model of one run: all its results over one list of independent causes. Meter accuracy and
 * image area stand once, so that they add up in the sum of red, green and blue and cancel in colour ÷ white.
 */
export function runModel(input: RunInput): Outcome<RunModel> {
  const problems = runProblems(input);
  if (problems.length > 0) return bad(...problems);
  const layout = layoutOf(input);
  const nets = layout.fields.map((field) => ({ field, net: meanNet(layout, field) }));
  const dark = nets.flatMap(({ field, net }) => darkness(field, net));
  if (dark.length > 0) return bad(...dark);
  const of = (name: FieldName) => nets.find(({ field }) => field.field.name === name);
  const white = of('white')!;
  const outputs = nets.flatMap(({ field, net }) =>
    field.field.name === 'black' ? [] : [fieldOutput(layout, field, net)],
  );
  const colour = colourOutput(outputs);
  if (colour) outputs.push(colour);
  const fractions: Outcome<Output>[] = [];
  if (colour)
    fractions.push(ratio({ id: 'ratio', label: 'colour to white ratio', unit: '' }, colour, outputs[0]!));
  const whiteNow = times(layout, white.net, driftOf(layout, white.field));
  if (layout.screen >= 0) outputs.push(luminanceOutput(layout, whiteNow));
  const extremes = extremesOf(layout, white.field);
  fractions.push(uniformityOutput(layout, white.field, extremes));
  const black = of('black');
  if (black) fractions.push(...contrastOutput(CONTRAST, black, whiteNow, input, layout));
  if (layout.board) fractions.push(...boardOutput(layout, layout.board, input));
  for (const fraction of fractions) {
    if (!fraction.ok) return fraction;
    outputs.push(fraction.value);
  }
  return good({ components: layout.components, outputs, layout, extremes });
}

function darkness({ field: { name } }: FieldLayout, { value }: Output): Problem[] {
  if (value > 0 || name === 'black') return [];
  return [
    invalid(
      'ambient-exceeds',
      `${name} readings`,
      `The ${name} readings leave no light after ambient: their mean is ${Number(value.toPrecision(4))} lx.`,
    ),
  ];
}

function colourOutput(outputs: readonly Output[]): Output | undefined {
  const [red, green, blue] = PRIMARIES.map((name) => outputs.find(({ id }) => id === name));
  if (!red || !green || !blue) return undefined;
  const naming = { id: 'colour', label: 'colour light output', unit: 'lm' };
  return sum(naming, sum(naming, red, green), blue);
}

/** L = E·G ÷ π; the image's size has no part in it. */
function luminanceOutput(layout: Layout, white: Output): Output {
  const bright = times(layout, white, [layout.screen, ...layout.everywhere]);
  return {
    id: 'luminance',
    label: 'screen luminance',
    unit: 'cd/m²',
    value: bright.value / Math.PI,
    sensitivities: bright.sensitivities.map((c) => c / Math.PI),
  };
}

function extremesOf(layout: Layout, { field, resolution, repeatability, placing }: FieldLayout): Extremes {
  const nets = field.gross.map((gross, i) => gross - field.light * layout.ambientOffsets[i]!);
  const [low, high] = [Math.min(...nets), Math.max(...nets)];
  const isNear = (net: number, i: number) => {
    const [step, scatter] = [layout.components[resolution + i]!.u, layout.components[repeatability + i]!.u];
    const held = placing < 0 ? 0 : layout.components[placing + i]!.u * field.gross[i]!;
    const bound = CLEAR_SQUARED * (step * step + scatter * scatter + held * held);
    return (net - low) ** 2 <= bound || (high - net) ** 2 <= bound;
  };
  // Even light still has two ends: the first of the darkest points, the last of the brightest.
  const rivals = Math.max(0, nets.filter(isNear).length - 2);
  return { least: nets.indexOf(low), most: nets.lastIndexOf(high), rivals };
}

/** Smallest ÷ largest net white reading, for these two points as they were found. */
function uniformityOutput(layout: Layout, white: FieldLayout, { least, most }: Extremes): Outcome<Output> {
  return ratio(
    { id: 'uniformity', label: 'uniformity, min ÷ max', unit: '' },
    pointNet(layout, white, least),
    pointNet(layout, white, most),
  );
}

const CONTRAST = { id: 'contrast', label: 'sequential contrast', unit: '' } as const;
const BOARD = { id: 'board', label: 'checkerboard contrast', unit: '' } as const;
/** As the contrast itself: black and one step of the display are often one number but for rounding. */
const MARGIN = 1 + 1e-9;

/** White ÷ black, if black can be told from nothing: otherwise there is a bound only, and no uncertainty of it. */
function contrastOutput(
  naming: typeof CONTRAST | typeof BOARD,
  black: { field: PointsLayout; net: Output },
  white: Output,
  { meter, blackBound }: RunInput,
  layout: Layout,
): Outcome<Output>[] {
  const { ranges, scale } = black.field.field;
  const step = Math.max(...ranges.map((range, i) => digitOn(meter, range) * scale[i]!));
  const doubt = blackBound === 'U' ? doubtOf(layout, black.net) : 0;
  if (black.net.value <= Math.max(step, doubt) * MARGIN) return [];
  return [ratio(naming, white, black.net)];
}

/** Coverage factor of the doubt below which black is not told from nothing. */
const BOUND_K = 2;

/** U of a net illuminance, k = 2, as far as it bears on a contrast: the meter's common gain cancels there. */
export function doubtOf(layout: Layout, net: Output): number {
  const apart = net.sensitivities.map((c, i) => (i === layout.gain ? 0 : c));
  return BOUND_K * combined(layout.components, { ...net, sensitivities: apart });
}

/** Mean of the white tiles ÷ mean of the black ones; both are read in one go, so that the run's drift cancels. */
function boardOutput(
  layout: Layout,
  { white, black }: NonNullable<Layout['board']>,
  input: RunInput,
): Outcome<Output>[] {
  const dark = { field: black, net: meanNet(layout, black) };
  return contrastOutput(BOARD, dark, meanNet(layout, white), input, layout);
}
