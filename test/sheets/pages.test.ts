import { expect, it } from 'vitest';
import { pageBreaks } from '../../src/sheets/pages';

// Worked by hand: pages of at most 10 rows.
it.each([
  ['all on one page', [4, 8], 10, []],
  ['the part that would be cut begins a page', [4, 8], 12, [8]],
  ['each page is filled before the next begins', [5, 9, 14, 19], 24, [9, 19]],
  ['a part longer than a page begins one', [5, 20], 22, [5, 20]],
  ['no break above the first row', [1, 6], 14, [6]],
  ['no parts, no breaks', [], 100, []],
] as const)('%s', (_, parts, last, breaks) => {
  expect(pageBreaks(parts, last, (from, to) => to - from < 10)).toEqual(breaks);
});

it('a part that always begins a page does so though it would fit', () => {
  expect(pageBreaks([4, 6], 9, (from, to) => to - from < 10, new Set([6]))).toEqual([6]);
});
