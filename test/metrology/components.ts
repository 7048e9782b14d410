import type { Component } from '../../src/metrology/component';
import { type Distribution, divisor } from '../../src/metrology/distribution';
import type { Model } from '../../src/metrology/model';
import type { TrialModel } from '../../src/metrology/trial';

/** Components and models of worked examples, which are no runs of ours. */

interface Named {
  readonly id: string;
  readonly label: string;
  readonly value: number;
}

const rest = (label: string) => ({ line: label, unit: '', sharedBy: '', scope: 'run' }) as const;

/** Type B: from a bound or a statement; for `normal` an expanded uncertainty and what it was multiplied with. */
export function typeB(
  bound: Named & {
    readonly halfWidth: number;
    readonly distribution: Distribution;
    readonly coverageFactor?: number;
  },
): Component {
  const { id, label, value, halfWidth, distribution, coverageFactor = 1 } = bound;
  const by = divisor(distribution, coverageFactor);
  const dof = Number.POSITIVE_INFINITY;
  return { id, label, value, ...rest(label), distribution, halfWidth, divisor: by, u: halfWidth / by, dof };
}

/** Type A: a standard uncertainty from repeats, with its degrees of freedom. */
export function typeA(
  estimate: Named & { readonly u: number; readonly dof: number; readonly estimate?: string },
): Component {
  const { id, label, value, u, dof, estimate: common } = estimate;
  const shared = common === undefined ? {} : { estimate: common };
  const plain = { ...rest(label), distribution: 'normal', halfWidth: u, divisor: 1 } as const;
  return { id, label, value, ...plain, u, dof, ...shared };
}

/** A linear model as trials: its Monte Carlo differs from the law of propagation only in the shapes. */
export function linearTrial({ components, outputs }: Model): TrialModel {
  const evaluate = (x: Float64Array, y: Float64Array) => {
    outputs.forEach(({ value, sensitivities }, k) => {
      let sum = value;
      for (let i = 0; i < x.length; i++) sum += sensitivities[i]! * (x[i]! - components[i]!.value);
      y[k] = sum;
    });
  };
  return { components, outputs, evaluate };
}
