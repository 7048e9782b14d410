import { columnIndex, columnName } from '../../sheets/address';
import { tokens } from '../../sheets/tokens';

/** A formula written out for another cell, so many rows down and columns right: relative references move along. */
export function move(formula: string, rows: number, columns: number): string {
  if (rows === 0 && columns === 0) return formula;
  return tokens(formula)
    .map(({ kind, text }) => {
      if (kind !== 'cell') return text;
      const [, lockColumn, letters, lockRow, digits] = /^(\$?)([A-Z]+)(\$?)([0-9]+)$/.exec(
        text.toUpperCase(),
      )!;
      const column = lockColumn ? letters! : columnName(Math.max(0, columnIndex(letters!) + columns));
      const row = lockRow ? Number(digits) : Math.max(1, Number(digits) + rows);
      return `${lockColumn}${column}${lockRow}${row}`;
    })
    .join('');
}
