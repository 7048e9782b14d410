import type { CellValue } from '../../../src/sheets/book';

/** Spreadsheet programs keep 15 significant digits. */
const DIGITS = 1e-14;

/** Whether two cells hold the same; a number comes back from a spreadsheet with 15 digits. */
export function isSame(a: CellValue, b: CellValue): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= DIGITS * Math.abs(a);
  if (isError(a) && isError(b)) return a.error === b.error;
  return a === b || (isNothing(a) && isNothing(b));
}

function isError(value: CellValue): value is Exclude<CellValue, number | string | boolean | null> {
  return typeof value === 'object' && value !== null;
}

/** An emptied cell comes back as nothing, or as an empty text. */
function isNothing(value: CellValue): boolean {
  return value === null || value === '';
}
