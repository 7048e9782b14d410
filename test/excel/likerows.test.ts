import { expect, it } from 'vitest';
import { filledAreas } from '../../src/excel/areas';
import { likeRows } from '../../src/excel/likerows';
import { rectangles } from '../../src/excel/rectangles';
import { cellsOf, rectOf } from '../../src/sheets/address';

/* Regression: how few messages it takes is a matter of our own; that the sheet stands as planned is asplanned.test.ts. */

const two = () => 2;

it('a row like one above is copied from it, several below each other in one go', () => {
  expect(likeRows(['a', 'b', 'b', 'b'], two)).toEqual([{ row: 2, rows: 2, from: 1, height: 1 }]);
});

it('a block that comes again is copied as a block, whole repeats only', () => {
  expect(likeRows(['a', 'b', 'c', '', 'a', 'b', 'c', '', 'a', 'b', 'd'], two)).toEqual([
    { row: 4, rows: 4, from: 0, height: 4 },
    { row: 8, rows: 2, from: 0, height: 2 },
  ]);
});

it('an empty row is no copy, and neither is one behind a copy', () => {
  expect(likeRows(['a', '', '', 'b', 'a', '', ''], two)).toEqual([{ row: 4, rows: 1, from: 0, height: 1 }]);
});

it('a row of a single range is painted as cheaply as it is copied', () => {
  expect(likeRows(['a', 'x', 'a'], () => 1)).toEqual([]);
});

const cells = (of: Readonly<Record<string, string>>) =>
  new Map(Object.entries(of).flatMap(([range, key]) => cellsOf(range).map((at) => [at, key] as const)));

it('rectangles cover every cell once, over rows that are free', () => {
  const found = rectangles(cells({ 'A1:C1': 'head', 'A2:A9': 'label', 'B2:C4': 'figure' }));
  expect(found).toEqual([
    { key: 'head', range: 'A1:C1' },
    { key: 'label', range: 'A2:A9' },
    { key: 'figure', range: 'B2:C4' },
  ]);
  const isFree = (row: number) => row === 2;
  expect(rectangles(cells({ 'A1:A2': 'label', 'A4:A5': 'label' }), isFree)).toEqual([
    { key: 'label', range: 'A1:A5' },
  ]);
});

it('areas hold all that is filled, and no more empty cells than another range costs', () => {
  const filled = new Set([...cellsOf('A1:B40'), ...cellsOf('K90:K100')]);
  const areas = filledAreas('A1:L120', (at) => filled.has(at));
  expect(areas).toEqual(['A1:B40', 'K90:K100']);
  const near = new Set(['A1', 'C3']);
  expect(filledAreas('A1:L120', (at) => near.has(at)).map(rectOf)).toHaveLength(1);
  expect(filledAreas('A1:L120', () => false)).toEqual([]);
});
