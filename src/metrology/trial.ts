import type { Component } from './component';

/** A model as Monte Carlo needs it: linear or not. */
export interface TrialModel {
  readonly components: readonly Component[];
  readonly outputs: readonly { readonly id: string; readonly label: string; readonly unit: string }[];
  /** From one state of all components to all outputs, written into `y`. Called once a trial; must not allocate. */
  readonly evaluate: (x: Float64Array, y: Float64Array) => void;
}
