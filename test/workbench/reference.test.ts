import { expect, it } from 'vitest';
import { around, corners } from '../../src/workbench/engine/reference';

it('puts a rectangle around cells, however many', () => {
  expect(around([])).toBeUndefined();
  // By hand: rows 2 to 9 and columns 3 to 5, counted from zero.
  expect(
    around([
      [9, 3],
      [2, 5],
      [4, 4],
    ]),
  ).toEqual({ row: 2, column: 3, rows: 8, columns: 3 });
  // More cells than a call can have arguments.
  const many = Array.from({ length: 300_000 }, (_, i) => [i, i % 22] as const);
  expect(around(many)).toEqual({ row: 0, column: 0, rows: 300_000, columns: 22 });
});

it('is that rectangle again around its corners', () => {
  const rect = { row: 7, column: 1, rows: 3, columns: 4 };
  expect(around(corners(rect))).toEqual(rect);
});
