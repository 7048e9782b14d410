import { columnIndex, rectOf } from '../../sheets/address';
import { tokens } from '../../sheets/tokens';

/**
 * A rule's formula without regard to where it is written: relative references become distances from `from`, so
 * that the same rule on another cell reads the same. `('=N(B12)>0', 'B12')` → `=N(R[0]C[0])>0`.
 */
export function relative(formula: string, from: string): string {
  const { row, column } = rectOf(from);
  return tokens(formula)
    .filter(({ kind }) => kind !== 'space')
    .map(({ kind, text }) => {
      if (kind === 'call' || kind === 'word') return text.toUpperCase();
      if (kind !== 'cell') return /^[0-9.]/.test(text) ? String(Number(text)) : text;
      const [, lockColumn, letters, lockRow, digits] = /^(\$?)([A-Z]+)(\$?)([0-9]+)$/.exec(
        text.toUpperCase(),
      )!;
      const [r, c] = [Number(digits) - 1, columnIndex(letters!)];
      return `R${lockRow ? r : `[${r - row}]`}C${lockColumn ? c : `[${c - column}]`}`;
    })
    .join('');
}
