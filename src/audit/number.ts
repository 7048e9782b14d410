import type { CellValue } from '../sheets/book';
import { isSameNumber } from '../sheets/phrases/agree';
import { isError } from './formula/value';

/** Whether two results are the same but for rounding. */
export function isSame(a: CellValue, b: CellValue): boolean {
  if (isError(a) || isError(b)) return isError(a) && isError(b) && a.error === b.error;
  if (typeof a === 'number' && typeof b === 'number') {
    return isSameNumber(a, b);
  }
  return (a === '' ? null : a) === (b === '' ? null : b);
}

/** A value in words for a report: `2466.1`, `"over"`, `empty`, `#NAME?`. */
export function inWords(value: CellValue): string {
  if (value === null || value === '') return 'empty';
  if (isError(value)) return value.error;
  if (typeof value === 'string') return `"${value}"`;
  return typeof value === 'number' ? String(Number(value.toPrecision(12))) : String(value).toUpperCase();
}
