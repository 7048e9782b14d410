import { bad, good, invalid, type Outcome } from '../photometry/outcome';
import { mean } from '../photometry/reading';
import { notFinite } from './check';

/** y = intercept + slope · (x − origin), fitted by least squares. */
export interface Line {
  readonly origin: number;
  readonly intercept: number;
  readonly slope: number;
  readonly uIntercept: number;
  readonly uSlope: number;
  readonly correlation: number;
  /** Standard deviation of a point about the line, and its degrees of freedom n − 2. */
  readonly sd: number;
  readonly dof: number;
}

/**
 * Straight line by unweighted least squares with the uncertainties of both coefficients and their correlation
 * (GUM H.3, eq. H.13). At least three points, not all at one x.
 */
export function fitLine(x: readonly number[], y: readonly number[], origin = 0): Outcome<Line> {
  const problems = [...x, ...y, origin].flatMap((value) => notFinite(value, 'points of the line'));
  if (problems.length > 0) return bad(problems[0]!);
  if (x.length !== y.length || x.length < 3) {
    return bad(
      invalid(
        'shape',
        'points of the line',
        `A line with its uncertainty needs at least 3 points with an x and a y each; there are ${x.length} and ${y.length}.`,
      ),
    );
  }
  const [n, mx, my] = [x.length, mean(x), mean(y)];
  const sxx = x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  if (sxx === 0) {
    return bad(invalid('not-defined', 'points of the line', `A line is not defined: every x is ${mx}.`));
  }
  const slope = x.reduce((sum, value, i) => sum + (value - mx) * (y[i]! - my), 0) / sxx;
  const intercept = my - slope * (mx - origin);
  const dof = n - 2;
  const residuals = x.reduce((sum, value, i) => sum + (y[i]! - intercept - slope * (value - origin)) ** 2, 0);
  const sd = Math.sqrt(residuals / dof);
  const fromOrigin = sxx + n * (mx - origin) ** 2;
  return good({
    origin,
    intercept,
    slope,
    uIntercept: sd * Math.sqrt(fromOrigin / (n * sxx)),
    uSlope: sd / Math.sqrt(sxx),
    correlation: (-(mx - origin) * Math.sqrt(n)) / Math.sqrt(fromOrigin),
    sd,
    dof,
  });
}

/** Value of the line at `x` and its standard uncertainty, correlation included (GUM eq. H.15). */
export function predict(line: Line, x: number): { readonly value: number; readonly u: number } {
  const d = x - line.origin;
  const variance =
    line.uIntercept ** 2 +
    d ** 2 * line.uSlope ** 2 +
    2 * d * line.uIntercept * line.uSlope * line.correlation;
  return { value: line.intercept + line.slope * d, u: Math.sqrt(Math.max(0, variance)) };
}
