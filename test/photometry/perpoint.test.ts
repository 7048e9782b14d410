import { describe, expect, it } from 'vitest';
import type { Outcome } from '../../src/photometry/outcome';
import { ambients, CORNERS, factors, NINE, type RawCell } from '../../src/photometry/reading';
import { goodOf, problemsOf } from './outcome';

/* A factor and the ambient light come once for all points or point by point, and as whatever stands in the cells. */
type Cells = number | readonly (readonly RawCell[])[];
const factor = (cells: Cells) => factors(cells, CORNERS, 'range factor');
const ambient = (cells: Cells) => ambients(cells, CORNERS);
const ninefold = (cells: Cells) => factors(cells, NINE, 'range factor');
const two = (a: RawCell, b: RawCell, c: RawCell, d: RawCell) => [
  [a, b],
  [c, d],
];
const grid = (rows: number, columns: number) =>
  Array.from({ length: rows }, () => Array.from({ length: columns }, () => 10));

describe('once or point by point', () => {
  it.each<readonly [string, () => Outcome<unknown>, unknown]>([
    ['a number counts for all', () => factor(10), 10],
    ['so does a single cell', () => factor([[10]]), 10],
    ['a grid goes point by point, row by row', () => factor(two(1, 10, 100, 0.1)), [1, 10, 100, 0.1]],
    ['a factor may be as small as you like', () => factor(Number.MIN_VALUE), Number.MIN_VALUE],
    ['no ambient light is a measured one', () => ambient(0), 0],
    ['ambient light point by point', () => ambient(two(0, 0.2, 0.4, 12)), [0, 0.2, 0.4, 12]],
  ])('%s', (_, taken, value) => expect(goodOf(taken())).toEqual(value));
});

// What is refused says where, what was expected and what came. The words are ours: regression.
describe('refused', () => {
  it.each<readonly [code: string, message: string, () => Outcome<unknown>]>([
    ['out-of-bounds', 'must be greater than 0; it is 0 (an empty cell counts as 0).', () => factor(0)],
    ['out-of-bounds', 'must be greater than 0; it is -1.', () => factor([[-1]])],
    ['not-a-number', 'must be a number; it is "NaN".', () => factor(Number.NaN)],
    ['not-a-number', 'must be a number; it is "Infinity".', () => factor(Number.POSITIVE_INFINITY)],
    ['not-a-number', 'must be a number; it is "10".', () => factor([['10']])],
    ['not-a-number', 'must be a number; it is "true".', () => factor([[true]])],
    ['not-a-number', 'must be a number; it is the error #N/A.', () => factor([[{ error: '#N/A' }]])],
    ['missing', 'is missing.', () => factor([[null]])],
    ['missing', 'is missing.', () => factor([[' ']])],
    ['shape', 'must be a grid of 2 × 2 cells; it is 4 × 1.', () => factor(grid(4, 1))],
    ['shape', 'must be a grid of 2 × 2 cells; it is 1 × 4.', () => factor(grid(1, 4))],
    ['shape', 'must be a grid of 3 × 3 cells; it is 4 × 3.', () => ninefold(grid(4, 3))],
    ['shape', 'must be a grid of 3 × 3 cells; it is 0 × 0.', () => ninefold([])],
  ])('a factor: %s, it %s', (code, message, refused) => {
    const kind = code === 'missing' ? 'missing' : 'invalid';
    expect(problemsOf(refused())).toEqual([
      { kind, code, where: 'range factor', message: `The range factor ${message}` },
    ]);
  });

  it('ambient light below 0 lx', () => {
    const where = 'ambient illuminance';
    expect(problemsOf(ambient(-0.1))).toMatchObject([
      { code: 'out-of-bounds', where, message: 'The ambient illuminance must not be negative; it is -0.1.' },
    ]);
  });

  it('every point of a grid at once, by its name and number', () => {
    expect(problemsOf(factor(two(1, 0, null, 10))).map(({ where, code }) => [where, code])).toEqual([
      ['range factor at top right corner (point 11)', 'out-of-bounds'],
      ['range factor at bottom left corner (point 12)', 'missing'],
    ]);
  });
});
