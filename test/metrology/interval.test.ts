import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shortestInterval, sortForIntervals, symmetricInterval } from '../../src/metrology/interval';

describe('coverage intervals of few trials (JCGM 101 7.7, by hand)', () => {
  const both = (trials: readonly number[], level: number) => {
    const sorted = Float64Array.from(trials);
    return { symmetric: symmetricInterval(sorted, level), shortest: shortestInterval(sorted, level) };
  };
  it.each([
    ['q = 8 steps of 10 trials at 80 %', [1, 2, 3, 4, 5, 6, 7, 8, 9, 100], 0.8, [1, 9], [1, 9]],
    // All of q = 10 steps would need eleven trials.
    ['no more than all trials at 99 %', [1, 2, 3, 4, 5, 6, 7, 8, 9, 100], 0.99, [1, 100], [1, 100]],
    // q = 4 of 6 trials, r = (6 − 4 + 1) ÷ 2 cut to 1.
    [
      'the dense trials above an outlier',
      [950, 1001, 1002, 1003, 1004, 1005],
      0.6,
      [950, 1004],
      [1001, 1005],
    ],
    ['the dense trials below one', [1001, 1002, 1003, 1004, 1005, 1056], 0.6, [1001, 1005], [1001, 1005]],
    // q = 2 of 4: 1 to 3 and 2 to 4 are as short.
    ['the lower ones of two equally short', [1, 2, 3, 4], 0.5, [1, 3], [1, 3]],
  ])('hold %s', (_, trials, level, symmetric, shortest) =>
    expect(both(trials, level)).toEqual({
      symmetric: { low: symmetric[0], high: symmetric[1] },
      shortest: { low: shortest[0], high: shortest[1] },
    }),
  );

  it('are those of all trials in order where only the ends were sorted', () => {
    const trials = fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), {
      minLength: 20,
      maxLength: 200,
    });
    fc.assert(
      fc.property(trials, fc.double({ min: 0.6, max: 0.99, noNaN: true }), (drawn, level) => {
        const values = Float64Array.from(drawn);
        sortForIntervals(values, level);
        const inOrder = Float64Array.from(drawn).sort();
        expect(symmetricInterval(values, level)).toEqual(symmetricInterval(inOrder, level));
        expect(shortestInterval(values, level)).toEqual(shortestInterval(inOrder, level));
      }),
    );
  });
});
