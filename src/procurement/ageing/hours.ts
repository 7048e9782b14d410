import { notAboveZero, notProbability } from '../../metrology/check';
import { DEFAULT_LEVEL } from '../../metrology/coverage';
import { type Line, predict } from '../../metrology/line';
import { tQuantile } from '../../metrology/student';
import { bad, good, type Outcome } from '../../photometry/outcome';
import { mean } from '../../photometry/reading';
import { aheadOf, crossing } from './crossing';
import type { AgeingFit } from './fit';

/** No projection beyond this many times the observed hours (TM-21, as retold: for 20 units and more). */
const CAP_FACTOR = 6;
/** A light output this close to what is asked, as a logarithm, is at it: rounding must not decide. */
const AT_IT = 5e-13;

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

/** `reached`: by the fit at or below it at the last measurement, whether the light falls or not. */
type HoursState = 'ahead' | 'reached' | 'beyond the cap' | 'no fall seen';

/** When a light output is reached. Hours are those of the light source. */
export interface HoursTo {
  /** lm. */
  readonly target: number;
  readonly state: HoursState;
  /** By the fit; the cap where it lies beyond; 0 where the light lies at or below it throughout; not there where no fall is seen. */
  readonly hours?: number;
  /** True where `hours` is the cap and stands for "more than". */
  readonly capped: boolean;
  /** Hour beyond which nothing is said. */
  readonly cap: number;
  /**
   * Interval of the crossing at `level`, no further than the cap. No upper end: beyond the cap, or the fall is not certain. Not
   * there: the measurements do not tell on which side of the target the light was last, or it lies at or below it throughout.
   */
  readonly interval?: { readonly lower: number; readonly upper?: number };
  readonly level: number;
}

/**
 * Hours until the fitted light output falls to `target` (lm): t = ln(B ÷ target) ÷ α, with an interval from
 * Student's t (see `crossing.ts`), along `line` if it is another than the fit's. Capped at 6 × the observed hours, counted from the hour of the initial
 * value: 0 where it is stated.
 */
export function hoursTo(
  fit: AgeingFit,
  initial: Initial,
  target: number,
  level = DEFAULT_LEVEL,
  line: Line = fit.line,
): Outcome<HoursTo> {
  const problems = [...notAboveZero(target, 'light output to fall to'), ...notProbability(level, 'level')];
  if (problems.length > 0) return bad(...problems);
  const cap = initial.hours + CAP_FACTOR * (fit.lastHours - initial.hours);
  const base = { target, cap, level };
  const [log, k] = [Math.log(target), tQuantile((1 + level) / 2, fit.dof)];
  const isReached = predict(line, fit.lastHours).value - log <= AT_IT;
  if (fit.rate <= 0) {
    if (isReached) return good({ ...base, state: 'reached', hours: 0, capped: false });
    const ahead = aheadOf(line, log, k, fit.lastHours);
    const earliest = ahead === undefined ? {} : { interval: { lower: Math.min(ahead, cap) } };
    return good({ ...base, state: 'no fall seen', capped: false, ...earliest });
  }
  const { at, lower, upper } = crossing(line, log, k);
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
  const state = isReached ? 'reached' : 'ahead';
  return good({ ...base, state, hours: Math.max(0, at), capped: false, ...interval });
}

/** Whether the first measurement is as uncertain as the others, or is what the part is a part of, exactly. */
export type FirstDoubt = 'exact' | 'in doubt';
export const FIRST_DOUBTS: readonly FirstDoubt[] = ['exact', 'in doubt'];

/**
 * The line as it stands to a part of the first measurement: that is in doubt as every other point is, and bears on the
 * fit besides. Seen from its hour t₁ with d = t₁ − mean, the height of the line over the mean of m first points has the
 * variance s²·(1 ÷ m − 1 ÷ n − d² ÷ Σ(t − mean)²), uncorrelated with the slope (least squares, GUM H.3; by hand).
 */
function fromFirst({ line, points, sd }: AgeingFit, { hours }: Initial): Line {
  const firsts = points.filter((point) => point.hours === hours).length;
  const d = hours - line.origin;
  const left = 1 / firsts - 1 / points.length - (line.uSlope === 0 ? 0 : (d * line.uSlope) / sd) ** 2;
  return {
    ...line,
    origin: hours,
    intercept: line.intercept + line.slope * d,
    uIntercept: sd * Math.sqrt(Math.max(0, left)),
    correlation: 0,
  };
}

/** Hours until a part of the initial light output is left: 0.7 for L70, 0.5 for L50. */
export function hoursToPart(
  fit: AgeingFit,
  initial: Initial,
  part: number,
  level = DEFAULT_LEVEL,
  first: FirstDoubt = 'in doubt',
): Outcome<HoursTo> {
  const problems = notProbability(part, 'part of the initial light output');
  if (problems.length > 0) return bad(...problems);
  const isExact = initial.kind === 'stated' || first === 'exact';
  const line = isExact ? fit.line : fromFirst(fit, initial);
  return hoursTo(fit, initial, part * initial.output, level, line);
}
