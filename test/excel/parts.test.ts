import { expect, it } from 'vitest';
import { groupsOf, tripsOf } from '../../src/excel/parts';
import { cellCount, rectOf } from '../../src/sheets/address';

/*
 * Excel on the web answers no request of more than 5 MB (Office Add-ins documentation, "Resource limits and performance
 * optimization"). That a cell with everything a check looks at takes up to 300 bytes is what the bench counts: regression.
 */
const MOST_BYTES = 5_000_000;
const BYTES_A_CELL = 300;

it('a batch of 5000 units is read in round trips below 5 MB, every cell once and in order', () => {
  const areas = [
    { of: 'batch', address: 'A1:BZ5030' },
    { of: 'run', address: 'A1:L274' },
    { of: 'wide', address: 'B2:XFD3' },
  ];
  const trips = tripsOf(areas);
  for (const trip of trips.filter((parts) => parts.length > 1))
    expect(trip.reduce((sum, { address }) => sum + cellCount(address), 0) * BYTES_A_CELL).toBeLessThan(
      MOST_BYTES,
    );
  for (const { of, address } of areas) {
    const own = trips.flat().filter((part) => part.of === of);
    let row = rectOf(address).row;
    for (const part of own) {
      const rect = rectOf(part.address);
      expect([rect.row, rect.column, rect.columns]).toEqual([
        row,
        rectOf(address).column,
        rectOf(address).columns,
      ]);
      expect(cellCount(part.address) * BYTES_A_CELL).toBeLessThan(MOST_BYTES);
      row += rect.rows;
    }
    expect(own.reduce((sum, part) => sum + cellCount(part.address), 0)).toBe(cellCount(address));
  }
});

it('a list goes in groups of so many, the last one shorter', () => {
  expect(groupsOf([1, 2, 3, 4, 5], 2)).toEqual([[1, 2], [3, 4], [5]]);
  expect(groupsOf([], 2)).toEqual([]);
});
