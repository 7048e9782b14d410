import type { Component, Scope } from '../component';
import { type Distribution, divisor } from '../distribution';

/** Collects the components of a checked input and tells each one's place. */
export class List {
  readonly components: Component[] = [];

  add(
    id: string,
    [label, line]: readonly [string, string],
    [value, half, unit]: readonly [number, number, string],
    [scope, sharedBy]: readonly [Scope, string],
    shape: { distribution?: Distribution; by?: number; dof?: number; estimate?: string } = {},
  ): number {
    const {
      distribution = 'rectangular',
      by = divisor(distribution),
      dof = Number.POSITIVE_INFINITY,
      estimate,
    } = shape;
    const u = half / by;
    this.components.push({
      id,
      label,
      line,
      value,
      unit,
      distribution,
      halfWidth: half,
      divisor: by,
      u,
      dof,
      sharedBy,
      scope,
      estimate,
    });
    return this.components.length - 1;
  }
}
