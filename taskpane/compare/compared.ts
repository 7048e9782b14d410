import type { SheetReading } from '../../src/excel/host';
import type { ComparedRun } from '../../src/sheets/comparison';
import { BUDGET_RESULT, type BudgetId } from '../../src/sheets/run/budgetid';
import { cellOf, columnOf } from '../run/cell';

/** How runs are taken to have one meter, or one image: by what their sheets say, all of them, or none. */
export type Grouping = 'by what the sheets say' | 'one for all' | 'each its own';
export const GROUPINGS: readonly Grouping[] = ['by what the sheets say', 'one for all', 'each its own'];

/** Run sheets as a comparison takes them. */
export function comparedRuns(
  readings: readonly SheetReading[],
  meters: Grouping,
  images: Grouping,
): ComparedRun[] {
  const meterCodes = codes(readings.map(meterOf), meters);
  const imageCodes = codes(readings.map(imageOf), images);
  return readings.map((reading, i) => ({
    sheet: reading.sheet,
    addresses: Object.fromEntries(
      Object.entries(reading.values).map(([name, { address }]) => [name, address]),
    ),
    components: Object.fromEntries(
      (Object.keys(BUDGET_RESULT) as BudgetId[])
        .filter((id) => reading.values[`${id}Components`])
        .map((id) => [id, columnOf(reading, `${id}Components`).map(String)]),
    ),
    meter: meterCodes[i]!,
    image: imageCodes[i]!,
  }));
}

/** A meter without a name may be any meter. */
function meterOf(reading: SheetReading): string | undefined {
  const name = String(cellOf(reading, 'Meter') ?? '')
    .trim()
    .toLowerCase();
  return name === '' ? undefined : name;
}

/**
 * Images of equal size, to the millimetre, in one place are taken for one image that was measured once; a place
 * without a name may be any.
 */
function imageOf(reading: SheetReading): string | undefined {
  const [width, height] = [cellOf(reading, 'ImageWidth'), cellOf(reading, 'ImageHeight')];
  if (typeof width !== 'number' || typeof height !== 'number') return undefined;
  const place = String(cellOf(reading, 'Place') ?? '')
    .trim()
    .toLowerCase();
  return place === '' ? undefined : `${width.toFixed(3)} ${height.toFixed(3)} ${place}`;
}

/** Equal words get equal numbers, from 1; what has no words gets a number of its own. */
export function codes(words: readonly (string | undefined)[], grouping: Grouping): number[] {
  if (grouping === 'one for all') return words.map(() => 1);
  const known = new Map<string, number>();
  let last = 0;
  return words.map((word) => {
    const old = grouping === 'each its own' || word === undefined ? undefined : known.get(word);
    if (old !== undefined) return old;
    last++;
    if (word !== undefined) known.set(word, last);
    return last;
  });
}
