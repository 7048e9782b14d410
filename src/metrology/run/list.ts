import type { Component, Scope } from '../component';
import { type Distribution, divisor } from '../distribution';

/** Shape of a component's doubt, where it is not a plain rectangle. */
export interface Shape {
  readonly distribution: Distribution;
  readonly by: number;
  readonly dof: number;
  readonly estimate?: string;
}
const RECTANGLE: Shape = {
  distribution: 'rectangular',
  by: divisor('rectangular'),
  dof: Number.POSITIVE_INFINITY,
};

/** Collects the components of a checked input and tells each one's place. */
export class List {
  readonly components: Component[] = [];

  add(
    id: string,
    label: string,
    value: number,
    halfWidth: number,
    unit: string,
    scope: Scope,
    sharedBy: string,
    line = label,
    { distribution, by, dof, estimate }: Shape = RECTANGLE,
  ): number {
    const u = halfWidth / by;
    // One literal of fixed shape: a spread here takes as long as all the rest of a budget.
    return (
      this.components.push({
        id,
        label,
        line,
        value,
        unit,
        distribution,
        halfWidth,
        divisor: by,
        u,
        dof,
        sharedBy,
        scope,
        estimate,
      }) - 1
    );
  }
}
