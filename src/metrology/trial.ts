import type { Component } from './component';
import type { Model } from './model';

/** A model as Monte Carlo needs it: linear or not. */
export interface TrialModel {
  readonly components: readonly Component[];
  readonly outputs: readonly { readonly id: string; readonly label: string; readonly unit: string }[];
  /** From one state of all components to all outputs, written into `y`. Called once a trial; must not allocate. */
  readonly evaluate: (x: Float64Array, y: Float64Array) => void;
}

/** The linear model itself, for a Monte Carlo that differs from the law of propagation only in the shapes. */
export function linearTrial({ components, outputs }: Model): TrialModel {
  const values = Float64Array.from(components, ({ value }) => value);
  const rows = outputs.map(({ sensitivities }) => Float64Array.from(sensitivities));
  const centres = outputs.map(({ value }) => value);
  const evaluate = (x: Float64Array, y: Float64Array) => {
    for (let k = 0; k < rows.length; k++) {
      const row = rows[k]!;
      let sum = centres[k]!;
      for (let i = 0; i < row.length; i++) sum += row[i]! * (x[i]! - values[i]!);
      y[k] = sum;
    }
  };
  return { components, outputs, evaluate };
}
