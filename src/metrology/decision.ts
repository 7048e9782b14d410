import { bad, good, invalid, type Outcome } from '../photometry/outcome';
import { notFinite } from './check';
import { type Guard, guardWidth } from './guard';
import { type Limits, limitProblems } from './limits';

/** ILAC-G8:09/2019: 4.2.1 and 4.2.2 know pass and fail, 4.2.3 four outcomes. */
export type Verdict = 'pass' | 'conditional pass' | 'conditional fail' | 'fail';
/** From best to worst. */
export const VERDICTS: readonly Verdict[] = ['pass', 'conditional pass', 'conditional fail', 'fail'];

export interface Rule {
  readonly guard: Guard;
  readonly outcomes: 'two' | 'four';
}
/** Simple acceptance, 4.2.1. */
export const SIMPLE: Rule = { guard: { kind: 'none' }, outcomes: 'two' };
/** Guarded acceptance with w = U, 4.2.2. */
export const GUARDED: Rule = { guard: { kind: 'expanded', factor: 1 }, outcomes: 'two' };
/** Four outcomes with w = U, 4.2.3; what a run is decided by unless its set-up says otherwise. */
export const FOUR_OUTCOMES: Rule = { guard: { kind: 'expanded', factor: 1 }, outcomes: 'four' };

export interface Decision {
  readonly verdict: Verdict;
  /** Width of the guard band. */
  readonly guard: number;
  /** The limits drawn in by the guard band: pass lies between them. */
  readonly acceptance: Limits;
  /** False where the guard bands of two limits leave nothing to pass: the measurement is not good enough. */
  readonly canPass: boolean;
}

/**
 * Decision on a measured value (ILAC-G8:09/2019, written there for an upper limit and mirrored for a lower
 * one). The standard does not say what happens exactly on a limit; here the limit itself conforms and the
 * acceptance limit passes: for a lower limit T, pass is y ≥ T + w, conditional pass T ≤ y < T + w, conditional
 * fail T − w ≤ y < T, fail y < T − w. With two limits the worse of the two counts. "On" a limit is what differs from
 * it by no more than a thousand-millionth of T + w.
 */
export function judge(
  measured: { readonly value: number; readonly expanded: number },
  limits: Limits,
  rule: Rule = FOUR_OUTCOMES,
): Outcome<Decision> {
  const problems = [...notFinite(measured.value, 'measured value'), ...limitProblems(limits)];
  if (problems.length > 0) return bad(...problems);
  const width = guardWidth(rule.guard, measured.expanded);
  if (!width.ok) return width;
  const w = width.value;
  if (w < 0 && rule.outcomes === 'four') {
    return bad(
      invalid(
        'negative',
        'guard band',
        `The guard band must not be negative where there are four outcomes; it is ${w}.`,
      ),
    );
  }
  const { lower, upper } = limits;
  const y = measured.value;
  const verdicts = [
    ...(lower === undefined ? [] : [verdictAbove(y, lower, w, rule.outcomes)]),
    // An upper limit is a lower one seen in a mirror.
    ...(upper === undefined ? [] : [verdictAbove(-y, -upper, w, rule.outcomes)]),
  ];
  const acceptance = {
    ...(lower === undefined ? {} : { lower: lower + w }),
    ...(upper === undefined ? {} : { upper: upper - w }),
  };
  return good({
    verdict: VERDICTS[Math.max(...verdicts.map((verdict) => VERDICTS.indexOf(verdict)))]!,
    guard: w,
    acceptance,
    canPass:
      acceptance.lower === undefined ||
      acceptance.upper === undefined ||
      acceptance.lower <= acceptance.upper,
  });
}

/**
 * Part of limit and guard band by which a value may miss them and still lies on them: 4826.9 is 4621.6 + 205.3 in
 * decimals, and a little less in binary numbers. Rounding must not decide.
 */
const MARGIN = 1e-9;

/** Verdict on a value against a lower limit with a guard band of width w; plain formulas decide likewise (`sheets/phrases`). */
export function verdictAbove(y: number, limit: number, w: number, outcomes: Rule['outcomes']): Verdict {
  const margin = MARGIN * (Math.abs(limit) + Math.abs(w));
  if (y >= limit + w - margin) return 'pass';
  if (outcomes === 'two') return 'fail';
  if (y >= limit - margin) return 'conditional pass';
  return y >= limit - w - margin ? 'conditional fail' : 'fail';
}
