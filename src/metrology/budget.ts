import { good, type Outcome } from '../photometry/outcome';
import type { Component } from './component';
import { type Coverage, DEFAULT_COVERAGE, type Expanded, expand } from './coverage';
import type { Distribution } from './distribution';
import { combined, dofOf, type Model, outputOf } from './model';

/** One row of a budget. Where it stands for several readings' components, u and sensitivity are those of their sum. */
export interface BudgetLine {
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
  const u = combined(model.components, output);
  const expanded = expand(u, dofOf(model.components, output), coverage);
  if (!expanded.ok) return expanded;
  const groups = new Map<string, { component: Component; c: number }[]>();
  model.components.forEach((component, i) => {
    const c = output.sensitivities[i]!;
    // What has no bearing on this result has no row in its budget.
    if (c === 0) return;
    groups.set(component.line, [...(groups.get(component.line) ?? []), { component, c }]);
  });
  const lines = [...groups].map(([label, members]) => lineOf(label, members, u));
  const { value, unit } = output;
  return good({ id, label: output.label, value, unit, lines, ...expanded.value });
}

function lineOf(
  label: string,
  members: readonly { component: Component; c: number }[],
  total: number,
): BudgetLine {
  const first = members[0]!.component;
  const square = members.reduce((sum, { component, c }) => sum + (c * component.u) ** 2, 0);
  const rms = (pick: (component: Component) => number) =>
    members.length === 1
      ? pick(first)
      : Math.sqrt(members.reduce((sum, { component }) => sum + pick(component) ** 2, 0) / members.length);
  const u = rms((component) => component.u);
  const contribution = Math.sqrt(square);
  const root = Math.sqrt(members.reduce((sum, { c }) => sum + c * c, 0));
  return {
    label,
    count: members.length,
    value: members.reduce(
      (far, { component: { value } }) => (Math.abs(value) > Math.abs(far) ? value : far),
      0,
    ),
    unit: first.unit,
    distribution: first.distribution,
    halfWidth: rms((component) => component.halfWidth),
    divisor: first.divisor,
    u,
    dof: first.dof,
    sensitivity: members.length === 1 ? members[0]!.c : u === 0 ? root : contribution / u,
    contribution,
    share: total === 0 ? 0 : square / total ** 2,
    sharedBy: first.sharedBy,
  };
}

/** Rows by share, the largest first: what would help most. */
export function largest(lines: readonly BudgetLine[]): BudgetLine[] {
  return [...lines].sort((a, b) => b.share - a.share);
}
