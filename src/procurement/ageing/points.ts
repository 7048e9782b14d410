import { notAboveZero, notAtLeastZero } from '../../metrology/check';
import { bad, good, missing, type Outcome } from '../../photometry/outcome';

/** One measurement of a unit in one mode. */
export interface AgeingPoint {
  /** Hours of the light source. */
  readonly hours: number;
  /** Light output, lm. */
  readonly output: number;
}

/** A fall and its uncertainty need this many. */
export const FEWEST_POINTS = 3;

/** The points in order of hours. Several at one hour are welcome: they tell the repeatability. */
export function sortedPoints(points: readonly AgeingPoint[]): Outcome<AgeingPoint[]> {
  const problems = points.flatMap(({ hours, output }, i) => [
    ...notAtLeastZero(hours, `hours of measurement ${i + 1}`),
    ...notAboveZero(output, `light output of measurement ${i + 1}`),
  ]);
  if (problems.length > 0) return bad(...problems);
  if (points.length < FEWEST_POINTS) {
    return bad(
      missing(
        'measurements',
        `Ageing needs at least ${FEWEST_POINTS} measurements; there ${points.length === 1 ? 'is 1' : `are ${points.length}`}.`,
      ),
    );
  }
  return good([...points].sort((a, b) => a.hours - b.hours));
}
