import { type Line, predict } from '../../metrology/line';

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
  const { origin, slope: b } = line;
  const { A, quadratic, constant, solutions } = solved(line, level, k);
  const at = origin - A / b;
  if (!solutions) return { at };
  if (quadratic > 0) {
    return { at, lower: origin + Math.min(...solutions), upper: origin + Math.max(...solutions) };
  }
  // The slope may be 0: only a level that the data themselves stay clear of is reached no sooner than some hour.
  const ahead = solutions.filter((d) => d > 0);
  return A > 0 && constant > 0 && ahead.length > 0 ? { at, lower: origin + Math.min(...ahead) } : { at };
}

/**
 * Where a line that does not fall may come down to a level all the same, from `last` on: the first x at which the level lies
 * within its band, ∞ where it never does. Not there where the band holds the level at `last` already, or the line lies below it.
 */
export function aheadOf(line: Line, level: number, k: number, last: number): number | undefined {
  const { value, u } = predict(line, last);
  const { solutions } = solved(line, level, k);
  if (!solutions || value - level <= k * u) return undefined;
  const ahead = solutions.filter((d) => d > last - line.origin);
  return ahead.length > 0 ? line.origin + Math.min(...ahead) : Number.POSITIVE_INFINITY;
}

/** The equation above and its solutions d; none where the level lies within the band throughout. */
function solved({ intercept, slope: b, uIntercept, uSlope }: Line, level: number, k: number) {
  const A = intercept - level;
  const quadratic = b * b - (k * uSlope) ** 2;
  const constant = A * A - (k * uIntercept) ** 2;
  // (A·b)² − quadratic·constant, multiplied out: so written it cannot come out negative by rounding alone.
  const discriminant = k * k * (uIntercept ** 2 * quadratic + (uSlope * A) ** 2);
  if (discriminant < 0) return { A, quadratic, constant };
  // A·b and the root never cancel in q, so both solutions keep their digits.
  const q = -(A * b + (A * b < 0 ? -1 : 1) * Math.sqrt(discriminant));
  const solutions = [...(quadratic === 0 ? [] : [q / quadratic]), ...(q === 0 ? [0] : [constant / q])];
  return { A, quadratic, constant, solutions };
}
