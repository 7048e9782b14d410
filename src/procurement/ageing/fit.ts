import { fitLine, type Line, predict } from '../../metrology/line';
import { bad, chain, good, invalid, type Outcome } from '../../photometry/outcome';
import { mean } from '../../photometry/reading';
import { type AgeingPoint, sortedPoints } from './points';

/** Φ(t) = B·e^(−αt), fitted to the measurements of one unit. */
export interface AgeingFit {
  /** B, lm: what the fit says of hour 0, with its standard uncertainty (first order). */
  readonly start: number;
  readonly uStart: number;
  /** α, 1/h, with its standard uncertainty. At most 0 where the light does not fall. */
  readonly rate: number;
  readonly uRate: number;
  /** Standard deviation of ln Φ about the line: the relative scatter of a measurement. */
  readonly sd: number;
  /** n − 2. */
  readonly dof: number;
  readonly firstHours: number;
  readonly lastHours: number;
  /** In order of hours. */
  readonly points: readonly AgeingPoint[];
  /** ln Φ over hours, its origin at the mean of the hours: there its two coefficients are uncorrelated. */
  readonly line: Line;
}

/**
 * Least squares of ln Φ on t, unweighted (TM-21, from memory; standard errors of the line: GUM H.3). The form is
 * made for the light of LEDs; for lamps and lasers it is an extrapolation by analogy.
 */
export function fitAgeing(measured: readonly AgeingPoint[]): Outcome<AgeingFit> {
  return chain(sortedPoints(measured), (points) => {
    const hours = points.map((point) => point.hours);
    const [firstHours, lastHours] = [hours[0]!, hours[hours.length - 1]!];
    if (firstHours === lastHours) {
      return bad(
        invalid(
          'not-defined',
          'measurements',
          `Ageing is not defined: every measurement is at ${firstHours} h.`,
        ),
      );
    }
    const logs = points.map(({ output }) => Math.log(output));
    return chain(fitLine(hours, logs, mean(hours)), (line) => {
      const atStart = predict(line, 0);
      const start = Math.exp(atStart.value);
      return good({
        start,
        uStart: start * atStart.u,
        rate: -line.slope,
        uRate: line.uSlope,
        sd: line.sd,
        dof: line.dof,
        firstHours,
        lastHours,
        points,
        line,
      });
    });
  });
}

/** Light output at an hour by the fit, lm. */
export function fittedOutput(fit: AgeingFit, hours: number): number {
  return Math.exp(predict(fit.line, hours).value);
}
