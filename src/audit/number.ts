import type { CellValue } from '../sheets/book';
import { isError } from './formula/value';

/** Results that differ by less than this part of their size are the same: what programs differ by in the last digits. */
const SAME = 1e-8;

/** Whether two results are the same but for rounding. */
export function isSame(a: CellValue, b: CellValue): boolean {
  if (isError(a) || isError(b)) return isError(a) && isError(b) && a.error === b.error;
  if (typeof a === 'number' && typeof b === 'number') {
    return Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b), TINY);
  }
  return (a === '' ? null : a) === (b === '' ? null : b);
}

/** Differences of equal numbers leave a rest of this size: a drift of 0 comes out as 2e-16, a dark point as 2e-15 lx. */
const TINY = 1e-5;

/** A value in words for a report: `2466.1`, `"over"`, `empty`, `#NAME?`. */
export function inWords(value: CellValue): string {
  if (value === null || value === '') return 'empty';
  if (isError(value)) return value.error;
  if (typeof value === 'string') return `"${value}"`;
  return typeof value === 'number' ? String(Number(value.toPrecision(12))) : String(value).toUpperCase();
}
