import type { Line } from '../../metrology/line';

/** Where a line and the limits of its confidence band come down to a level. */
export interface Crossing {
  /** Of the line itself. */
  readonly at: number;
  /** The band's lower limit gets there first; not there where the data do not even tell on which side of the level they lie. */
  readonly lower?: number;
  /** The band's upper limit; not there where it never comes down, because the fall is not certain. */
  readonly upper?: number;
}

/**
 * Crossing of a falling line, whose two coefficients are uncorrelated at its origin, with a level: every x at which the level lies
 * within `k` standard uncertainties of the line (Fieller's theorem, inverse prediction; textbooks of regression).
 * With d = x − origin, A = intercept − level, b = slope: (A + b·d)² = k²·(u_A² + d²·u_b²).
 */
export function crossing(line: Line, level: number, k: number): Crossing {
  const { origin, intercept, slope: b, uIntercept, uSlope } = line;
  const A = intercept - level;
  const at = origin - A / b;
  const quadratic = b * b - (k * uSlope) ** 2;
  const constant = A * A - (k * uIntercept) ** 2;
  // (A·b)² − quadratic·constant, multiplied out: so written it cannot come out negative by rounding alone.
  const discriminant = k * k * (uIntercept ** 2 * quadratic + (uSlope * A) ** 2);
  if (discriminant < 0) return { at };
  // A·b and the root never cancel in q, so both solutions keep their digits.
  const q = -(A * b + (A * b < 0 ? -1 : 1) * Math.sqrt(discriminant));
  const solutions = [...(quadratic === 0 ? [] : [q / quadratic]), ...(q === 0 ? [0] : [constant / q])];
  if (quadratic > 0) {
    return { at, lower: origin + Math.min(...solutions), upper: origin + Math.max(...solutions) };
  }
  // The slope may be 0: only a level that the data themselves stay clear of is reached no sooner than some hour.
  const ahead = solutions.filter((d) => d > 0);
  return A > 0 && constant > 0 && ahead.length > 0 ? { at, lower: origin + Math.min(...ahead) } : { at };
}
