import { bad, invalid, type Outcome } from '../../photometry/outcome';
import { notAboveZero, unless } from '../check';

/** What a table without scatter is told. */
const TWO = 'Two readings at least are needed: one alone says nothing about repeatability.';

/**
 * Standard deviation of one reading as a part of their mean, s ÷ mean with ν = n − 1 (JCGM 100:2008, 4.2.2: Type A).
 * @param readings of one and the same light, all above 0, in any one unit
 */
export function relativeScatter(readings: readonly number[]): Outcome<number> {
  if (readings.length < 2) return bad(invalid('shape', 'readings', TWO));
  const problems = readings.flatMap((reading, i) => notAboveZero(reading, `reading in row ${i + 1}`));
  return unless(problems, () => {
    const mean = readings.reduce((sum, value) => sum + value, 0) / readings.length;
    const squares = readings.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return Math.sqrt(squares / (readings.length - 1)) / mean;
  });
}
