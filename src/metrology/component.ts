import type { Outcome } from '../photometry/outcome';
import { notAboveZero, notAtLeastZero, notDegreesOfFreedom, notFinite, unless } from './check';
import { type Distribution, divisor } from './distribution';

/**
 * One independent cause of uncertainty. Whatever two results have in common is one component that both depend
 * on; that is all there is to correlation here.
 */
export interface Component {
  /** Unique within a model, e.g. `gain`, `digits:x10`, `resolution:white:5`. */
  readonly id: string;
  readonly label: string;
  /** Components with the same line are shown as one line of the budget, e.g. nine readings' resolution. */
  readonly line: string;
  /** Best estimate, in `unit`. */
  readonly value: number;
  readonly unit: string;
  readonly distribution: Distribution;
  /** Bound of the value, or expanded uncertainty for `normal`; in `unit`. */
  readonly halfWidth: number;
  readonly divisor: number;
  /** Standard uncertainty, half-width ÷ divisor, in `unit`. */
  readonly u: number;
  /** Degrees of freedom; infinite for a bound taken as known. */
  readonly dof: number;
  /** In words: what shares this cause ("every reading of this meter"). */
  readonly sharedBy: string;
  /** What must be the same thing for two runs to share this cause. */
  readonly scope: Scope;
  /** Components whose u comes from one estimate bear the same word: Welch–Satterthwaite counts them as one. */
  readonly estimate?: string;
}

/** meter: the instrument. image: the picture's size on the wall. spectrum: meter and light source. screen: its gain. */
export type Scope = 'meter' | 'image' | 'spectrum' | 'screen' | 'run' | 'reading';

type Named = Pick<Component, 'id' | 'label'> &
  Partial<Pick<Component, 'line' | 'unit' | 'sharedBy' | 'scope'>>;

function named({ id, label, line = label, unit = '', sharedBy = '', scope = 'run' }: Named) {
  return { id, label, line, unit, sharedBy, scope };
}

export interface Bound extends Named {
  readonly value: number;
  readonly halfWidth: number;
  readonly distribution: Distribution;
  /** For `normal`: what the half-width was multiplied with; 1 for a standard uncertainty. */
  readonly coverageFactor?: number;
  readonly dof?: number;
}

/** Type B: from a bound or a statement. The half-width must not be negative. */
export function typeB(bound: Bound): Outcome<Component> {
  const { value, halfWidth, distribution, coverageFactor = 1, dof = Number.POSITIVE_INFINITY } = bound;
  const problems = [
    ...notFinite(value, `value of "${bound.label}"`),
    ...notAtLeastZero(halfWidth, `half-width of "${bound.label}"`),
    ...notAboveZero(coverageFactor, `coverage factor of "${bound.label}"`),
    ...notDegreesOfFreedom(dof, `degrees of freedom of "${bound.label}"`),
  ];
  return unless(problems, () => {
    const by = divisor(distribution, coverageFactor);
    return { ...named(bound), value, distribution, halfWidth, divisor: by, u: halfWidth / by, dof };
  });
}

export interface Estimate extends Named {
  readonly value: number;
  readonly u: number;
  readonly dof: number;
  readonly estimate?: string;
}

/** Type A: a standard uncertainty from repeats, with its degrees of freedom (at least 1). */
export function typeA(estimate: Estimate): Outcome<Component> {
  const { value, u, dof } = estimate;
  const problems = [
    ...notFinite(value, `value of "${estimate.label}"`),
    ...notAtLeastZero(u, `standard uncertainty of "${estimate.label}"`),
    ...notDegreesOfFreedom(dof, `degrees of freedom of "${estimate.label}"`),
  ];
  return unless(problems, () => ({
    ...named(estimate),
    value,
    distribution: 'normal',
    halfWidth: u,
    divisor: 1,
    u,
    dof,
    ...(estimate.estimate === undefined ? {} : { estimate: estimate.estimate }),
  }));
}
