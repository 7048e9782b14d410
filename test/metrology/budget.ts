import type { Component } from '../../src/metrology/component';
import { type Coverage, DEFAULT_COVERAGE, type Expanded, expand } from '../../src/metrology/coverage';
import type { Distribution } from '../../src/metrology/distribution';
import { type Model, outputOf, spreadOf } from '../../src/metrology/model';
import { good, type Outcome } from '../../src/photometry/outcome';

/** One row of a budget. Where it stands for several readings' components, u and sensitivity are those of their sum. */
interface BudgetLine {
  readonly label: string;
  /** How many components the row stands for. */
  readonly count: number;
  /** Best estimate, or the largest in magnitude of several. */
  readonly value: number;
  readonly unit: string;
  readonly distribution: Distribution;
  /** Half-width, divisor and u of one component: the root mean square of several. */
  readonly halfWidth: number;
  readonly divisor: number;
  readonly u: number;
  readonly dof: number;
  /** Sensitivity; of several components √(Σ(cᵢuᵢ)²) ÷ u, so that u times it is the contribution. Signed for one. */
  readonly sensitivity: number;
  /** |sensitivity|·u, in the unit of the result. */
  readonly contribution: number;
  /** Part of the result's variance, 0 to 1; all rows sum to 1 (to 0 where there is no uncertainty). */
  readonly share: number;
  readonly sharedBy: string;
}

export interface Budget extends Expanded {
  readonly id: string;
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  readonly lines: readonly BudgetLine[];
}

/** The budget of one result of a model: rows in the order of the components, then u_c, ν_eff, k and U. */
export function budget(model: Model, id: string, coverage: Coverage = DEFAULT_COVERAGE): Outcome<Budget> {
  const output = outputOf(model, id);
  const { u, dof } = spreadOf(model.components, output);
  const expanded = expand(u, dof, coverage);
  if (!expanded.ok) return expanded;
  const groups = new Map<string, Group>();
  model.components.forEach((component, i) => {
    const c = output.sensitivities[i]!;
    // What has no bearing on this result has no row in its budget.
    if (c === 0) return;
    const group = groups.get(component.line);
    if (group) addTo(group, component, c);
    else groups.set(component.line, groupOf(component, c));
  });
  const lines = Array.from(groups.values(), (group) => lineOf(group, u));
  const { value, unit } = output;
  return good({ id, label: output.label, value, unit, lines, ...expanded.value });
}

/** Components of one row: sums of squares as they come. */
interface Group {
  readonly first: Component;
  count: number;
  largest: number;
  halfWidths: number;
  us: number;
  sensitivity: number;
  sensitivities: number;
  contributions: number;
}

function groupOf(first: Component, c: number): Group {
  const { value, halfWidth, u } = first;
  return {
    first,
    count: 1,
    largest: value,
    halfWidths: halfWidth * halfWidth,
    us: u * u,
    sensitivity: c,
    sensitivities: c * c,
    contributions: (c * u) ** 2,
  };
}

function addTo(group: Group, { value, halfWidth, u }: Component, c: number): void {
  group.count += 1;
  if (Math.abs(value) > Math.abs(group.largest)) group.largest = value;
  group.halfWidths += halfWidth * halfWidth;
  group.us += u * u;
  group.sensitivities += c * c;
  group.contributions += (c * u) ** 2;
}

function lineOf(group: Group, total: number): BudgetLine {
  const { first, count } = group;
  const isOne = count === 1;
  const u = isOne ? first.u : Math.sqrt(group.us / count);
  const contribution = Math.sqrt(group.contributions);
  return {
    label: first.line,
    count,
    value: group.largest,
    unit: first.unit,
    distribution: first.distribution,
    halfWidth: isOne ? first.halfWidth : Math.sqrt(group.halfWidths / count),
    divisor: first.divisor,
    u,
    dof: first.dof,
    sensitivity: isOne ? group.sensitivity : u === 0 ? Math.sqrt(group.sensitivities) : contribution / u,
    contribution,
    share: total === 0 ? 0 : group.contributions / total ** 2,
    sharedBy: first.sharedBy,
  };
}
