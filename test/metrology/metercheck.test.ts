import { describe, expect, it } from 'vitest';
import { errorFound } from '../../src/metrology/metercheck/limit';
import { relativeScatter } from '../../src/metrology/metercheck/scatter';
import { got, problemsOf } from './outcome';

/* What a meter's own readings tell of it, worked on paper (the sheets' meter checks are held by another hand as well). */

describe('the scatter of repeated readings', () => {
  it.each([
    // Mean 100, deviations −2, 0 and 2: s² = 8 ÷ 2.
    ['three', [98, 100, 102], 0.02],
    // Mean 50, deviations −1 and 1: s² = 2 ÷ 1.
    ['two', [49, 51], Math.SQRT2 / 50],
    ['equal ones', [7, 7, 7], 0],
  ])('of %s is s ÷ mean with n − 1 (on paper)', (_, readings, expected) =>
    expect(got(relativeScatter(readings))).toBeCloseTo(expected, 14),
  );

  const few = {
    code: 'shape',
    where: 'readings',
    message: 'Two readings at least are needed: one alone says nothing about repeatability.',
  };
  it.each([
    ['no reading', [], [few]],
    ['one alone', [100], [few]],
    [
      'none of light',
      [100, 0, -3, Number.NaN],
      [
        ['out-of-bounds', 'reading in row 2', 'must be greater than 0; it is 0.'],
        ['out-of-bounds', 'reading in row 3', 'must be greater than 0; it is -3.'],
        ['not-a-number', 'reading in row 4', 'must be a finite number; it is NaN.'],
      ].map(([code, where, rest]) => ({ code, where, message: `The ${where} ${rest}` })),
    ],
  ])('refused: %s', (_, readings, problems) =>
    expect(problemsOf(relativeScatter(readings))).toMatchObject(problems),
  );
});

describe('what the error of a meter is not beyond', () => {
  // On paper: errors 1 % and 3 %, mean 2 %, s² ÷ n = 2e-4 ÷ 2, half² ÷ 3 = 3e-4: u = 2 %, ν = (4e-4)² ÷ (1e-4)² = 16.
  // k = 2.17 at ν = 16 (NIST TN 1297, table B.1), more digits by scipy 1.17.1.
  const [u, expanded] = [0.02, 2.168943 * 0.02];
  it.each([
    ['high', [101, 206], 0.02],
    ['low', [99, 194], -0.02],
  ])('is |mean| + U of a meter that reads %s', (_, found, mean) => {
    const error = got(errorFound(found, [100, 200], 0.03));
    expect(error.mean).toBeCloseTo(mean, 14);
    expect(error.u).toBeCloseTo(u, 14);
    expect(error.dof).toBeCloseTo(16, 9);
    expect(error.expanded).toBeCloseTo(expanded, 7);
    expect(error.limit).toBeCloseTo(0.02 + expanded, 7);
  });

  it('is found from the scatter alone, with ν = n − 1, where nothing is common to the rounds', () => {
    // On paper: errors −1, 0 and 1 %: s² ÷ n = 1e-4 ÷ 3. k = 4.53 at ν = 2 (NIST TN 1297, table B.1).
    const error = got(errorFound([99, 100, 101], [100, 100, 100], 0));
    expect(error.mean).toBeCloseTo(0, 14);
    expect(error.dof).toBeCloseTo(2, 9);
    expect(Math.abs(error.limit / (0.01 / Math.sqrt(3)) - 4.53)).toBeLessThan(0.005);
  });

  it('is the error itself where nothing is in doubt', () =>
    expect(got(errorFound([3, 6], [2, 4], 0))).toMatchObject({
      mean: 0.5,
      u: 0,
      dof: Number.POSITIVE_INFINITY,
      limit: 0.5,
    }));

  it.each([
    ['one round', [1], [1], 1, 1],
    ['a reading without its other', [1, 2, 3], [1, 2], 3, 2],
    ['another without its reading', [1, 2], [1, 2, 3], 2, 3],
  ])('refused: %s', (_, found, expected, left, right) =>
    expect(problemsOf(errorFound(found, expected, 0))).toEqual([
      {
        kind: 'invalid',
        code: 'shape',
        where: 'rounds',
        message: `Both columns must have the same number of rounds, at least two; they have ${left} and ${right}.`,
      },
    ]),
  );

  it('says all that is wrong at once, and where', () =>
    expect(
      problemsOf(errorFound([1, 0], [-1, Number.NaN], -0.1)).map(({ where, message }) => [where, message]),
    ).toEqual([
      ['value found in row 2', 'The value found in row 2 must be greater than 0; it is 0.'],
      ['value expected in row 1', 'The value expected in row 1 must be greater than 0; it is -1.'],
      ['value expected in row 2', 'The value expected in row 2 must be a finite number; it is NaN.'],
      ['half-width', 'The half-width must not be negative; it is -0.1.'],
    ]));
});
