import { bad, good, invalid, type Outcome } from './outcome';

/** Relative change of the centre reading from the first to the last of a run: +0.02 is 2 % brighter. */
export function drift(first: number, last: number): Outcome<number> {
  if (!(first > 0)) {
    return bad(
      invalid(
        'not-defined',
        'first centre reading',
        `Drift is not defined: the first centre reading is ${first}.`,
      ),
    );
  }
  if (!(last >= 0)) {
    return bad(
      invalid(
        'negative',
        'last centre reading',
        `The last centre reading must not be negative; it is ${last}.`,
      ),
    );
  }
  return good(last / first - 1);
}

/** Over 2 % the run should be repeated (common practice). */
export const DRIFT_LIMIT = 0.02;

/** Ambient over 1 % of the mean white illuminance is said on the sheet (common practice). */
export const AMBIENT_LIMIT = 0.01;
