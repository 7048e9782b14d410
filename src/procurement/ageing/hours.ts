import { notAboveZero, notProbability } from '../../metrology/check';
import { DEFAULT_LEVEL } from '../../metrology/coverage';
import { tQuantile } from '../../metrology/student';
import { bad, good, type Outcome } from '../../photometry/outcome';
import { mean } from '../../photometry/reading';
import { crossing } from './crossing';
import type { AgeingFit } from './fit';

/** No projection beyond this many times the observed hours (TM-21, as retold: for 20 units and more). */
export const CAP_FACTOR = 6;

/** The light output that "70 %" is 70 % of, and the hour it belongs to. */
export interface Initial {
  readonly output: number;
  readonly hours: number;
  readonly kind: 'stated' | 'first measured';
}

/**
 * TM-21 takes the measured value at hour 0 as initial, not the fitted B. So does this: the value stated for a
 * new unit (hour 0), or else the first measurement, the mean of several at that hour.
 */
export function initialOf(fit: AgeingFit, stated?: number): Outcome<Initial> {
  if (stated !== undefined) {
    const problems = notAboveZero(stated, 'initial light output');
    if (problems.length > 0) return bad(...problems);
    return good({ output: stated, hours: 0, kind: 'stated' });
  }
  const first = fit.points.filter(({ hours }) => hours === fit.firstHours);
  return good({
    output: mean(first.map(({ output }) => output)),
    hours: fit.firstHours,
    kind: 'first measured',
  });
}

/** `reached`: by the fit already so at the last measurement. */
type HoursState = 'ahead' | 'reached' | 'beyond the cap' | 'no fall seen';

/** When a light output is reached. Hours are those of the light source. */
export interface HoursTo {
  /** lm. */
  readonly target: number;
  readonly state: HoursState;
  /** By the fit; the cap where it lies beyond; not there where no fall is seen. */
  readonly hours?: number;
  /** True where `hours` is the cap and stands for "more than". */
  readonly capped: boolean;
  /** Hour beyond which nothing is said. */
  readonly cap: number;
  /** Interval of the crossing at `level`. No upper end: beyond the cap, or the fall is not certain. */
  readonly interval?: { readonly lower: number; readonly upper?: number };
  readonly level: number;
}

/**
 * Hours until the fitted light output falls to `target` (lm): t = ln(B ÷ target) ÷ α, with an interval from
 * Student's t (see `crossing.ts`). Capped at 6 × the observed hours, counted from the hour of the initial
 * value: 0 where it is stated.
 */
export function hoursTo(
  fit: AgeingFit,
  initial: Initial,
  target: number,
  level = DEFAULT_LEVEL,
): Outcome<HoursTo> {
  const problems = [...notAboveZero(target, 'light output to fall to'), ...notProbability(level, 'level')];
  if (problems.length > 0) return bad(...problems);
  const cap = initial.hours + CAP_FACTOR * (fit.lastHours - initial.hours);
  const base = { target, cap, level };
  if (fit.rate <= 0) return good({ ...base, state: 'no fall seen', capped: false });
  const { at, lower, upper } = crossing(fit.line, Math.log(target), tQuantile((1 + level) / 2, fit.dof));
  const interval =
    lower === undefined
      ? {}
      : {
          interval: {
            lower: Math.min(Math.max(0, lower), cap),
            ...(upper === undefined || upper > cap ? {} : { upper: Math.max(0, upper) }),
          },
        };
  if (at > cap) return good({ ...base, state: 'beyond the cap', hours: cap, capped: true, ...interval });
  const state = at <= fit.lastHours ? 'reached' : 'ahead';
  return good({ ...base, state, hours: Math.max(0, at), capped: false, ...interval });
}

/** Hours until a part of the initial light output is left: 0.7 for L70, 0.5 for L50. */
export function hoursToPart(
  fit: AgeingFit,
  initial: Initial,
  part: number,
  level = DEFAULT_LEVEL,
): Outcome<HoursTo> {
  const problems = notProbability(part, 'part of the initial light output');
  return problems.length > 0 ? bad(...problems) : hoursTo(fit, initial, part * initial.output, level);
}
