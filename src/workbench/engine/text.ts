import { format } from 'numfmt';
import type { CellValue } from '../../sheets/book';

/** What a cell shows: the value with its number format, English separators. Never `####`. */
export function cellText(value: CellValue, pattern: string): string {
  if (value === null) return '';
  if (typeof value === 'object') return value.error;
  return format(pattern, value, { locale: 'en-US', throws: false });
}
