import type { Outcome } from '../photometry/outcome';
import { notAtLeastZero, notDegreesOfFreedom, notProbability, unless } from './check';
import { tQuantile } from './student';
import { DEFAULT_LEVEL } from './words';

export { DEFAULT_LEVEL } from './words';

/**
 * What to do with ν_eff that is no whole number: cut to the next lower one, as GUM G.4.1 suggests and most
 * spreadsheets' t functions do, or use it as it is.
 */
export type Rounding = 'truncate' | 'interpolate';

export interface Coverage {
  readonly level: number;
  readonly rounding: Rounding;
}
export const DEFAULT_COVERAGE: Coverage = { level: DEFAULT_LEVEL, rounding: 'truncate' };

/** Slack for ν_eff that is a whole number but for rounding errors: 15.999999999999998 is 16. */
const SLACK = 1e-9;

/** ν as it enters Student's t. */
export function usedDof(dof: number, rounding: Rounding): number {
  return rounding === 'truncate' && Number.isFinite(dof) ? Math.floor(dof * (1 + SLACK)) : dof;
}

/** Coverage factor k = t_p(ν) of a two-sided interval at the level p (GUM G.3.4). */
export function coverageFactor(dof: number, coverage: Coverage = DEFAULT_COVERAGE): Outcome<number> {
  const used = usedDof(dof, coverage.rounding);
  const problems = [
    ...notProbability(coverage.level, 'level of confidence'),
    ...notDegreesOfFreedom(used, 'effective degrees of freedom'),
  ];
  return unless(problems, () => tQuantile((1 + coverage.level) / 2, used));
}

export interface Expanded {
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  /** U = k·u. */
  readonly expanded: number;
  readonly level: number;
}

/** Combined uncertainty and ν_eff → k and U. */
export function expand(u: number, dof: number, coverage: Coverage = DEFAULT_COVERAGE): Outcome<Expanded> {
  const problems = notAtLeastZero(u, 'combined standard uncertainty');
  if (problems.length > 0) return { ok: false, problems };
  const k = coverageFactor(dof, coverage);
  return k.ok ? { ok: true, value: { u, dof, k: k.value, expanded: k.value * u, level: coverage.level } } : k;
}
