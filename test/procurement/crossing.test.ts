import { describe, expect, it } from 'vitest';
import type { Line } from '../../src/metrology/line';
import { aheadOf, type Crossing, crossing } from '../../src/procurement/ageing/crossing';

/** A line through (10, 3) whose origin is at 10, with k = 2 halved into its uncertainties. */
const lineOf = (kIntercept: number, kSlope: number, slope = -1, intercept = 3): Line => ({
  origin: 10,
  intercept,
  slope,
  uIntercept: kIntercept / 2,
  uSlope: kSlope / 2,
  correlation: 0,
  sd: 0,
  dof: 1,
});
const near = (value: number) => expect.closeTo(value, 12);

/* By hand: (3 − d)² = a² + c²·d² with d = x − 10, a and c k times the uncertainty of height and slope. */
describe('where a falling line and its band meet a level', () => {
  it.each<readonly [what: string, line: Line, level: number, Crossing]>([
    ['no doubt: all at once', lineOf(0, 0), 0, { at: 13, lower: 13, upper: 13 }],
    ['no doubt, at the origin itself', lineOf(0, 0), 3, { at: 10, lower: 10, upper: 10 }],
    // 0.75·d² − 6·d + 5.25 = 0
    [
      'a² 3.75, c 0.5: d 1 and 7',
      lineOf(Math.sqrt(3.75), 0.5),
      0,
      { at: 13, lower: near(11), upper: near(17) },
    ],
    // 0.75·d² − 6·d = 0, and mirrored, 0.75·d² + 6·d = 0
    ['a 3, c 0.5: d 0 and 8', lineOf(3, 0.5), 0, { at: 13, lower: 10, upper: 18 }],
    ['the same from below the level: d −8 and 0', lineOf(3, 0.5, -1, -3), 0, { at: 7, lower: 2, upper: 10 }],
    // 0.75·d² = 9
    [
      'a 3, c 0.5 about the level: d ± √12',
      lineOf(3, 0.5),
      3,
      { at: 10, lower: near(10 - Math.sqrt(12)), upper: near(10 + Math.sqrt(12)) },
    ],
    // 9 − 6·d = 1: the fall is certain only at infinity.
    ['a 1, c 1: d 4/3 and never', lineOf(1, 1), 0, { at: 13, lower: near(10 + 4 / 3) }],
    // 3·d² + 6·d − 8 = 0
    [
      'a 1, c 2: d −1 + √(11/3), the other one behind',
      lineOf(1, 2),
      0,
      { at: 13, lower: near(9 + Math.sqrt(11 / 3)) },
    ],
    ['the same from below the level: nothing is told', lineOf(1, 2, -1, -3), 0, { at: 7 }],
    // 3·d² + 2·d + 3 = 0 has no solution: the level lies in the band throughout.
    ['a 2, c 2: always in the band', lineOf(2, 2, -1, 1), 0, { at: 11 }],
  ])('%s', (_, line, level, expected) => {
    expect(crossing(line, level, 2)).toEqual(expected);
  });
});

/* By hand, as above: (height + slope·d)² = a² + c²·d². */
describe('where a line that does not fall may come down to a level all the same', () => {
  const flat = (kIntercept: number, kSlope: number, intercept = 3) =>
    lineOf(kIntercept, kSlope, 0, intercept);
  const rising = (kIntercept: number, kSlope: number, intercept = 3) =>
    lineOf(kIntercept, kSlope, 1, intercept);
  it.each<readonly [what: string, line: Line, last: number, from: number | undefined]>([
    // 9 = 1 + d²
    ['a 1, c 1, flat: d √8', flat(1, 1), 11, near(10 + Math.sqrt(8))],
    // At d = 3 the band is √10 wide, the line 3 above.
    ['the same, seen from later: the band holds the level by then', flat(1, 1), 13, undefined],
    ['no doubt and flat: never', flat(0, 0), 11, Number.POSITIVE_INFINITY],
    // 0.75·d² + 6·d + 8 = 0: both behind
    ['a 1, c 0.5, a certain rise: never', rising(1, 0.5), 11, Number.POSITIVE_INFINITY],
    // 3·d² − 6·d − 8 = 0
    ['a 1, c 2, an uncertain rise: d 1 + √(11/3)', rising(1, 2), 11, near(11 + Math.sqrt(11 / 3))],
    // (d − 3)² = 1: clear of the level from d = 4 on
    ['risen above it at last, and clear of it', rising(1, 0, -3), 15, Number.POSITIVE_INFINITY],
    ['risen above it, not clear of it', rising(1, 0, -3), 13.5, undefined],
    ['below it', flat(1, 1, -3), 11, undefined],
    // 3·d² − 2·d + 3 = 0 has no solution.
    ['a 2, c 2: always in the band', rising(2, 2, 1), 11, undefined],
  ])('%s', (_, line, last, from) => {
    expect(aheadOf(line, 0, 2, last)).toEqual(from);
  });
});
