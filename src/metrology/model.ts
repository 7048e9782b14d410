import type { Component } from './component';
import { DofSum } from './dof';

/** A result as a linear function of the components near their values. */
export interface Output {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly value: number;
  /** ∂output/∂component, one a component of the model, in its order. */
  readonly sensitivities: readonly number[];
}

/** Any number of results over one list of independent components (GUM 5.1, and 5.2 through common causes). */
export interface Model {
  readonly components: readonly Component[];
  readonly outputs: readonly Output[];
}

/** The output with this id; asking for one that is not there is a mistake of the caller. */
export function outputOf(model: Model, id: string): Output {
  const output = model.outputs.find((candidate) => candidate.id === id);
  if (!output) {
    throw new RangeError(`No output "${id}"; there are ${model.outputs.map((each) => each.id).join(', ')}.`);
  }
  return output;
}

/** Covariance of two results through the causes they share: Σ aᵢ·bᵢ·uᵢ² (GUM F.1.2.3). */
function covariance(components: readonly Component[], a: Output, b: Output): number {
  return components.reduce((sum, { u }, i) => sum + a.sensitivities[i]! * b.sensitivities[i]! * u * u, 0);
}

/** Combined standard uncertainty of a result (GUM eq. 10). */
export function combined(components: readonly Component[], output: Output): number {
  return Math.sqrt(covariance(components, output, output));
}

/** u_c and ν_eff of a result, every component counted once. */
export function spreadOf(
  components: readonly Component[],
  output: Output,
): { readonly u: number; readonly dof: number } {
  const total = new DofSum();
  for (let i = 0; i < components.length; i++) {
    const { u, dof, estimate } = components[i]!;
    const part = output.sensitivities[i]! * u;
    total.add(part * part, dof, estimate);
  }
  return { u: Math.sqrt(total.variance), dof: total.dof };
}
