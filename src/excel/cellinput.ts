import type { CellValue } from '../sheets/book';

/**
 * A value as it must be handed to Excel so that it arrives as what it is. Text that Excel would take for a
 * formula gets the leading apostrophe: a bidder called "=1+1" stays a name.
 */
export function cellInput(value: CellValue): string | number | boolean | null {
  if (typeof value === 'object' && value !== null) return value.error;
  if (typeof value === 'string' && /^[=+\-@']/.test(value)) return `'${value}`;
  return value;
}
