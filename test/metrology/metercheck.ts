import { type ErrorFound, errorFound } from '../../src/metrology/metercheck/limit';
import { relativeScatter } from '../../src/metrology/metercheck/scatter';
import { bad, chain, good, missing, type Outcome } from '../../src/photometry/outcome';

/*
 * A meter against itself: what can be told of it without a laboratory, from readings that should agree. Whatever is
 * common to all readings (its calibration, its colours) cancels and is not seen.
 */

/** One light in two ranges of the meter, round by round. */
interface RangeRounds {
  /** Numbers on the display in the lower range, and in the higher one. */
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly lowRange: readonly number[];
  readonly highRange: readonly number[];
}

/** One small lamp at two distances; `hidden` is the same with the lamp's own light blocked. */
interface DistanceRounds {
  readonly near: readonly number[];
  readonly nearHidden: readonly number[];
  readonly far: readonly number[];
  readonly farHidden: readonly number[];
  readonly nearRange: readonly number[];
  readonly farRange: readonly number[];
  /** From the lamp's surface to the sensor's, metres, and by how much each may be off. */
  readonly nearDistance: number;
  readonly farDistance: number;
  readonly distanceHalf: number;
  /** Radius of the luminous area and of the sensor's, metres. */
  readonly source: number;
  readonly sensor: number;
}

/** Three lights each alone, then all at once. */
interface SumRounds {
  readonly dark: readonly number[];
  readonly parts: readonly (readonly number[])[];
  readonly all: readonly number[];
  readonly partsRange: readonly number[];
  readonly allRange: readonly number[];
}

export interface MeterCheckInput {
  /** Step of the display's last digit at range factor 1. */
  readonly digit: number;
  /** Readings without touching the meter, and with the meter put back for each; undefined where not complete. */
  readonly repeats?: readonly number[];
  readonly placed?: readonly number[];
  readonly ranges?: RangeRounds;
  readonly distances?: DistanceRounds;
  readonly sums?: SumRounds;
}

/** What was found, as parts of a reading. */
export interface MeterCheck {
  readonly repeatability: Outcome<number>;
  readonly placing: Outcome<number>;
  readonly ranges: Outcome<ErrorFound>;
  readonly distances: Outcome<ErrorFound>;
  readonly sums: Outcome<ErrorFound>;
  /** Range step and linearity together: what bears on a field's readings. */
  readonly linearity: Outcome<number>;
}

const NOT_READ = (what: string) => bad(missing(what, `The ${what} have not all been read.`));

export function meterCheck(input: MeterCheckInput): MeterCheck {
  const { digit } = input;
  const ranges = input.ranges ? rangeError(input.ranges, digit) : NOT_READ('readings in two ranges');
  const distances = input.distances
    ? distanceError(input.distances, digit)
    : NOT_READ('readings at two distances');
  const sums = input.sums ? sumError(input.sums, digit) : NOT_READ('readings of parts and whole');
  const { repeats, placed } = input;
  return {
    repeatability: repeats ? relativeScatter(repeats) : NOT_READ('repeats'),
    placing: placed
      ? chain(relativeScatter(placed), (s) => good(placingHalf(s, placed.length)))
      : NOT_READ('repeats with the meter put back'),
    ranges,
    distances,
    sums,
    linearity: linearityOf(ranges, distances, sums),
  };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const most = (values: readonly number[]) => Math.max(...values);
const root = (...terms: readonly number[]) => Math.sqrt(terms.reduce((sum, term) => sum + term * term, 0));
const times = (a: readonly number[], b: readonly number[]) => a.map((value, i) => value * b[i]!);

/**
 * The higher range against the lower one. Half a step of each display rounds alike in every round of a steady light, so
 * it does not average out.
 */
function rangeError({ low, high, lowRange, highRange }: RangeRounds, digit: number): Outcome<ErrorFound> {
  const [expected, found] = [times(low, lowRange), times(high, highRange)];
  const half = root(
    (digit * most(lowRange)) / 2 / mean(expected),
    (digit * most(highRange)) / 2 / mean(found),
  );
  return errorFound(found, expected, half);
}

/**
 * Illuminance on the axis of a luminous disc of radius R that radiates evenly, on a sensor of radius r, is in proportion
 * to 1 ÷ (d² + R² + r²) (the configuration factor of coaxial discs to its first order). A sphere needs no R²; what the
 * lamp is between the two is not known, so that the term counts as its own half-width.
 */
function distanceError(rounds: DistanceRounds, digit: number): Outcome<ErrorFound> {
  const { near, nearHidden, far, farHidden, nearRange, farRange } = rounds;
  const { nearDistance: d1, farDistance: d2, distanceHalf, source, sensor } = rounds;
  const net = (lit: readonly number[], hidden: readonly number[], range: readonly number[]) =>
    lit.map((value, i) => (value - hidden[i]!) * range[i]!);
  const [e1, e2] = [net(near, nearHidden, nearRange), net(far, farHidden, farRange)];
  const finite = source ** 2 + sensor ** 2;
  const [q1, q2] = [d1 ** 2 + finite, d2 ** 2 + finite];
  const half = root(
    (digit * most(nearRange)) / Math.SQRT2 / mean(e1),
    (digit * most(farRange)) / Math.SQRT2 / mean(e2),
    (2 * d1 * distanceHalf) / q1,
    (2 * d2 * distanceHalf) / q2,
    source ** 2 * (1 / d1 ** 2 - 1 / d2 ** 2),
  );
  return errorFound(
    e2.map((value) => value * q2),
    e1.map((value) => value * q1),
    half,
  );
}

/** All lights at once against the sum of each alone; the dark is in every reading and taken off each. */
function sumError({ dark, parts, all: whole, partsRange, allRange }: SumRounds, digit: number) {
  const off = times(dark, partsRange);
  const expected = dark.map((_, i) =>
    parts.reduce((sum, part) => sum + part[i]! * partsRange[i]! - off[i]!, 0),
  );
  const found = whole.map((value, i) => value * allRange[i]! - off[i]!);
  // W − b − (R + G + B − 3b): each display once, the dark twice.
  const half =
    ((digit / 2) *
      root(most(allRange), Math.hypot(parts.length - 1, Math.sqrt(parts.length)) * most(partsRange))) /
    mean(expected);
  return errorFound(found, expected, half);
}

/** Two ranges, and the larger of what distances and sums show of the levels; both are needed. */
function linearityOf(
  ranges: Outcome<ErrorFound>,
  distances: Outcome<ErrorFound>,
  sums: Outcome<ErrorFound>,
): Outcome<number> {
  const levels = [distances, sums].flatMap((found) => (found.ok ? [found.value.limit] : []));
  if (!ranges.ok) return ranges;
  if (levels.length === 0) return NOT_READ('readings at two distances, or of parts and whole');
  return good(root(ranges.value.limit, most(levels)));
}

/**
 * Half-width of the rectangle that stands for a scatter found in n readings, where the next one counts with infinite
 * degrees of freedom: √3 · √((n − 1) ÷ (n − 3)) · s, the standard deviation of Student's t that n readings leave
 * (JCGM 101:2008, 6.4.9; clause from memory).
 * @param readings more than 3
 */
function placingHalf(scatter: number, readings: number): number {
  return Math.sqrt((3 * (readings - 1)) / (readings - 3)) * scatter;
}
