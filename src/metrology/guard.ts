import { good, type Outcome } from '../photometry/outcome';
import { notAtLeastZero, notDegreesOfFreedom, notFinite, notProbability, unless } from './check';
import { normalQuantile, tQuantile } from './student';

/** How wide the guard band is: fixed in the set-up, before the readings (ISO/IEC 17025, 7.1.3). */
export type Guard =
  /** Simple acceptance: no guard band. */
  | { readonly kind: 'none' }
  /** A multiple of U; 1 is the common rule (ILAC-G8), 0.83 that of ISO 14253-1 for 5 %. */
  | { readonly kind: 'expanded'; readonly factor: number }
  /** A width in the unit of the result. */
  | { readonly kind: 'width'; readonly width: number }
  /** As wide as it takes to keep the risk of accepting what does not conform at or below `risk`. */
  | { readonly kind: 'risk'; readonly risk: number };

/** What the width of a guard band can depend on. */
export interface Spread {
  readonly u: number;
  readonly expanded: number;
  readonly dof?: number;
}

/** Width w of the guard band, in the unit of the result. */
export function guardWidth(guard: Guard, { u, expanded, dof }: Spread): Outcome<number> {
  switch (guard.kind) {
    case 'none':
      return good(0);
    case 'expanded':
      return unless(
        [
          ...notFinite(guard.factor, 'guard band factor'),
          ...notAtLeastZero(expanded, 'expanded uncertainty'),
        ],
        () => guard.factor * expanded,
      );
    case 'width':
      return unless(notFinite(guard.width, 'guard band'), () => guard.width);
    case 'risk':
      return guardForRisk(u, guard.risk, dof);
  }
}

/** w = u·z₁₋ᵣ for a risk r of accepting wrongly at the limit (JCGM 106, 9.5, as retold); Student's t for a finite ν. */
export function guardForRisk(u: number, risk: number, dof = Number.POSITIVE_INFINITY): Outcome<number> {
  const problems = [
    ...notAtLeastZero(u, 'standard uncertainty'),
    ...notProbability(risk, 'risk'),
    ...notDegreesOfFreedom(dof, 'degrees of freedom'),
  ];
  return unless(
    problems,
    () => u * (Number.isFinite(dof) ? tQuantile(1 - risk, dof) : normalQuantile(1 - risk)),
  );
}

/** The same where the value is believed to be rectangular about the measured one: w = u·√3·(1 − 2r). */
export function guardForRiskRectangular(u: number, risk: number): Outcome<number> {
  return unless(
    [...notAtLeastZero(u, 'standard uncertainty'), ...notProbability(risk, 'risk')],
    () => u * Math.sqrt(3) * (1 - 2 * risk),
  );
}
