import { expect, it } from 'vitest';
import { errorOf, numberOf } from './call';

/*
 * What a budget or a decision must not be reckoned from: single repeats, a negative half-width, a level of 1, crossed
 * limits. The words say what is wrong. No doubt at all is no mistake: U is then 0.
 */
const column = (...values: readonly unknown[]) => values.map((value) => [value]);

it.each([
  [
    'ν = 0, a single repeat',
    'COVERAGEFACTOR',
    [0, 0.95],
    /degrees of freedom must be .*at least 1 or "∞" where it is infinite/i,
  ],
  ['ν = 0 in a column', 'EFFECTIVEDOF', [column(3, 4), column(0, 8)], /degrees of freedom|dof/i],
  ['a level of 1', 'COVERAGEFACTOR', [9, 1], /level/],
  ['a level of 1 in U', 'EXPANDEDU', [column(3, 4), column(9, 8), 1], /level/],
  [
    'a negative half-width',
    'BUDGET',
    [
      column('meter', 'ambient'),
      column(0.03, -1),
      column('rectangular', 'normal'),
      column(1, 1),
      column(8, 8),
    ],
    /half-width.*ambient.*(negative|at least 0|0 or more)/i,
  ],
  [
    'limits crossed, for a probability',
    'CONFORMITY',
    [10, 1, 12, 8],
    /lower.*(above|below|exceed).*upper|limit/i,
  ],
  ['limits crossed, for a decision', 'DECISION', [10, 1, 'no guard band', 12, 8], /limit/i],
  ['no limit at all', 'CONFORMITY', [10, 1], /neither came/],
])('%s is refused in words', (_, id, args, words) => {
  expect(errorOf(id, ...args).message).toMatch(words);
});

it('no doubt at all: U = 0', () => {
  expect(numberOf('COMBINEDU', column(0, 0))).toBe(0);
  expect(numberOf('EXPANDEDU', column(0, 0), column('∞', '∞'), 0.95)).toBe(0);
});
