import { type Coverage, DEFAULT_COVERAGE, type Expanded, expand } from '../../src/metrology/coverage';
import { ratio } from '../../src/metrology/derive';
import { type Model, type Output, outputOf, spreadOf } from '../../src/metrology/model';
import { got } from './outcome';

/** Two results held against each other, what they share counted once. */
interface Comparison extends Expanded {
  readonly a: string;
  readonly b: string;
  /** a − b, or a ÷ b. */
  readonly value: number;
  /** True only when |a − b| > U (or |a ÷ b − 1| > U); otherwise the two are not distinguishable. */
  readonly isDifferent: boolean;
}

function judge(
  { components }: Model,
  output: Output,
  a: string,
  b: string,
  equal: number,
  coverage: Coverage,
): Comparison {
  const { u, dof } = spreadOf(components, output);
  const expanded = got(expand(u, dof, coverage));
  const isDifferent = Math.abs(output.value - equal) > expanded.expanded;
  return { a, b, value: output.value, isDifferent, ...expanded };
}

/** a − b with its own U: what they share takes itself away. */
export function compare(model: Model, a: string, b: string, coverage = DEFAULT_COVERAGE): Comparison {
  const [first, second] = [outputOf(model, a), outputOf(model, b)];
  const sensitivities = first.sensitivities.map((c, i) => c - second.sensitivities[i]!);
  const output = { ...first, value: first.value - second.value, sensitivities };
  return judge(model, output, a, b, 0, coverage);
}

/** a ÷ b with its own U. */
export function compareAsRatio(model: Model, a: string, b: string): Comparison {
  const naming = { id: `${a} / ${b}`, label: '', unit: '' };
  const output = got(ratio(naming, outputOf(model, a), outputOf(model, b)));
  return judge(model, output, a, b, 1, DEFAULT_COVERAGE);
}

/** Every pair of the named outputs, in order: (1,2), (1,3), … */
export function comparePairs(model: Model, ids: readonly string[]): Comparison[] {
  return ids.flatMap((a, i) => ids.slice(i + 1).map((b) => compare(model, a, b)));
}
