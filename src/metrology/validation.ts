import { good, type Outcome } from '../photometry/outcome';
import type { Component } from './component';
import { type Coverage, DEFAULT_COVERAGE, expand } from './coverage';
import type { Interval } from './interval';
import { NEAR, SHIFT } from './linear';
import { combined, type Model, outputOf, spreadOf } from './model';
import type { Simulated } from './montecarlo';
import { placeOfDigits } from './rounding';
import type { FiniteDof } from './sampler';

/** The law of propagation held against the Monte Carlo of the same model. */
export interface Validation {
  readonly id: string;
  /** y ± U by the law of propagation. */
  readonly propagated: Interval;
  /** Half a unit of the last of `digits` significant digits of u (JCGM 101, 7.9.2). */
  readonly tolerance: number;
  /** Distances of the two intervals' ends (JCGM 101, 8.1.3). */
  readonly dLow: number;
  readonly dHigh: number;
  /** JCGM 101 clause 8: both ends within the tolerance. The Monte Carlo's figures are to be used where this is false. */
  readonly agrees: boolean;
  /** u of the Monte Carlo ÷ u that the law of propagation expects of the same distributions. */
  readonly uRatio: number;
  /** True where that ratio is within 1 % of 1 and the mean has not moved by more than a twentieth of u. */
  readonly isNearLinear: boolean;
  /** What to tell the reader; empty where all is well. */
  readonly remarks: readonly string[];
}

/**
 * Compares the two for one output. The Monte Carlo must be of the same model, at the same level, with the
 * same meaning of finite degrees of freedom.
 */
export function validate(
  model: Model,
  simulated: Simulated,
  coverage: Coverage = DEFAULT_COVERAGE,
  digits = 2,
  finiteDof: FiniteDof = 'student',
): Outcome<Validation> {
  const { components } = model;
  const output = outputOf(model, simulated.id);
  const { u, dof } = spreadOf(components, output);
  const expanded = expand(u, dof, coverage);
  if (!expanded.ok) return expanded;
  const half = expanded.value.expanded;
  const propagated = { low: output.value - half, high: output.value + half };
  const tolerance = u > 0 ? 0.5 * 10 ** placeOfDigits(u, digits) : 0;
  const dLow = Math.abs(propagated.low - simulated.symmetric.low);
  const dHigh = Math.abs(propagated.high - simulated.symmetric.high);
  const expected = combined(
    // A component without bearing on this output must not bring its infinity in: 0 × ∞ is no number.
    components.map((c, i) => (output.sensitivities[i] === 0 ? c : drawn(c, finiteDof))),
    output,
  );
  const uRatio = expected === 0 ? (simulated.u === 0 ? 1 : Number.POSITIVE_INFINITY) : simulated.u / expected;
  const moved = Math.abs(simulated.mean - output.value) > SHIFT * simulated.u;
  // No finite u of trials is near an infinite one: a heavy tail is never near linear.
  const heavy = !Number.isFinite(expected);
  const isNearLinear = Math.abs(uRatio - 1) <= NEAR && !moved;
  const agrees = dLow <= tolerance && dHigh <= tolerance;
  const remarks = [
    ...(heavy
      ? [
          `${output.label}: with fewer than three degrees of freedom the spread of the trials has no limit; use the interval, not u.`,
        ]
      : isNearLinear
        ? []
        : [
            `${output.label}: the model is not near linear over this uncertainty (u of the trials is ${percent(uRatio)} of the propagated one); use the Monte Carlo's interval.`,
          ]),
    ...(agrees || !(isNearLinear || heavy)
      ? []
      : [
          `${output.label}: y ± U and the Monte Carlo's interval differ in the digits reported, because the shape of the result is not that of Student's t; use the Monte Carlo's interval.`,
        ]),
  ];
  return good({
    id: simulated.id,
    propagated,
    tolerance,
    dLow,
    dHigh,
    agrees,
    uRatio,
    isNearLinear,
    remarks,
  });
}

/** A component with the spread that its draws have: Student's t is wider than its scale, by √(ν ÷ (ν − 2)). */
function drawn(component: Component, finiteDof: FiniteDof): Component {
  const { distribution, dof, u } = component;
  if (finiteDof === 'normal' || distribution !== 'normal' || !Number.isFinite(dof) || u === 0)
    return component;
  return { ...component, u: dof > 2 ? u * Math.sqrt(dof / (dof - 2)) : Number.POSITIVE_INFINITY };
}

function percent(ratio: number): string {
  return `${(100 * ratio).toPrecision(4)} %`;
}
