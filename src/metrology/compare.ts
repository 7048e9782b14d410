import { good, type Outcome } from '../photometry/outcome';
import { type Coverage, DEFAULT_COVERAGE, type Expanded, expand } from './coverage';
import { difference, ratio } from './derive';
import { type Model, type Output, outputOf, spreadOf } from './model';

/** Two results held against each other, what they share counted once. */
export interface Comparison extends Expanded {
  readonly a: string;
  readonly b: string;
  /** a − b, or a ÷ b. */
  readonly value: number;
  /** True only when |a − b| > U (or |a ÷ b − 1| > U); otherwise the two are not distinguishable. */
  readonly isDifferent: boolean;
}

function judge(model: Model, output: Output, a: string, b: string, equal: number, coverage: Coverage) {
  const { components } = model;
  const { u, dof } = spreadOf(components, output);
  const expanded = expand(u, dof, coverage);
  if (!expanded.ok) return expanded;
  const isDifferent = Math.abs(output.value - equal) > expanded.value.expanded;
  return good<Comparison>({ a, b, value: output.value, isDifferent, ...expanded.value });
}

/** a − b with its own U. */
export function compare(
  model: Model,
  a: string,
  b: string,
  coverage: Coverage = DEFAULT_COVERAGE,
): Outcome<Comparison> {
  const [first, second] = [outputOf(model, a), outputOf(model, b)];
  const naming = { id: `${a} - ${b}`, label: `${first.label} minus ${second.label}`, unit: first.unit };
  return judge(model, difference(naming, first, second), a, b, 0, coverage);
}

/** a ÷ b with its own U. */
export function compareAsRatio(
  model: Model,
  a: string,
  b: string,
  coverage: Coverage = DEFAULT_COVERAGE,
): Outcome<Comparison> {
  const [first, second] = [outputOf(model, a), outputOf(model, b)];
  const naming = { id: `${a} / ${b}`, label: `${first.label} over ${second.label}`, unit: '' };
  const output = ratio(naming, first, second);
  return output.ok ? judge(model, output.value, a, b, 1, coverage) : output;
}

/** Every pair of the named outputs, in order: (1,2), (1,3), … */
export function comparePairs(
  model: Model,
  ids: readonly string[],
  coverage: Coverage = DEFAULT_COVERAGE,
): Outcome<Comparison>[] {
  return ids.flatMap((a, i) => ids.slice(i + 1).map((b) => compare(model, a, b, coverage)));
}
