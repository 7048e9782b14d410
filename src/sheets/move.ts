import { columnIndex, columnName, SHEET_COLUMNS, SHEET_ROWS } from './address';
import { tokens } from './tokens';

const PART = /(\$?)([A-Za-z]+|[0-9]+)/g;

/**
 * A shared formula, written out for another cell of its range: relative references move by so many rows and
 * columns, absolute ones stay. Excel stores formulas that were filled down this way (ECMA-376-1, 18.3.1.40).
 */
export function moveFormula(stored: string, rows: number, columns: number): string {
  return tokens(stored)
    .map(({ kind, text }) => {
      if (kind !== 'cell' && kind !== 'lines') return text;
      return text.replace(PART, (part, lock: string, name: string) => {
        if (lock) return part;
        if (/[0-9]/.test(name)) return String(wrap(Number(name) - 1 + rows, SHEET_ROWS) + 1);
        return columnName(wrap(columnIndex(name.toUpperCase()) + columns, SHEET_COLUMNS));
      });
    })
    .join('');
}

/** A reference that runs off the sheet comes in again on the other side, as Excel has it. */
function wrap(index: number, size: number): number {
  return ((index % size) + size) % size;
}
