import type { Cell, CellValue as StoredValue } from 'hucre';
import { rectOf } from '../sheets/address';
import type { BookCell, CellValue, ErrorKind } from '../sheets/book';
import { moveFormula } from '../sheets/move';
import { showFormula } from './formula';
import { showStyle } from './style';

/** What a cell needs to know of its file. */
export interface Context {
  readonly theme: readonly string[];
  readonly defaultSize: number | undefined;
  /** Added to dates of a file that counts its days from 1904. */
  readonly dayShift: number;
  /** The sheet's numbers as they stand in the file; asked for when a cell has a date format. */
  numbers(): ReadonlyMap<string, number>;
}

const KINDS: ReadonlySet<string> = new Set<ErrorKind>([
  '#VALUE!',
  '#N/A',
  '#DIV/0!',
  '#NUM!',
  '#NULL!',
  '#NAME?',
  '#REF!',
  '#SPILL!',
  '#CALC!',
  '#BUSY!',
]);

/** A stored cell → ours; undefined for an empty cell without a style. `masters` are the shared formulas so far. */
export function showCell(
  at: string,
  value: StoredValue,
  cell: Cell | undefined,
  masters: ReadonlyMap<number, { at: string; cell: Cell }>,
  context: Context,
): BookCell | undefined {
  const formula = cell && formulaOf(at, cell, masters);
  const style = showStyle(cell?.style, context.theme, context.defaultSize);
  const shown = showValue(at, value, cell, context);
  if (shown === null && formula === undefined && style === undefined) return undefined;
  const isSpilled = cell?.formulaType === 'array' && cell.formulaRef?.includes(':');
  return {
    value: shown,
    ...(formula === undefined ? {} : { formula }),
    ...(isSpilled ? { spill: cell.formulaRef } : {}),
    ...(style === undefined ? {} : { style }),
  };
}

function formulaOf(
  at: string,
  cell: Cell,
  masters: ReadonlyMap<number, { at: string; cell: Cell }>,
): string | undefined {
  if (cell.formula) return showFormula(cell.formula);
  const master = cell.formulaSharedIndex === undefined ? undefined : masters.get(cell.formulaSharedIndex);
  if (!master?.cell.formula) return undefined;
  const [from, to] = [rectOf(master.at), rectOf(at)];
  return showFormula(moveFormula(master.cell.formula, to.row - from.row, to.column - from.column));
}

function showValue(at: string, value: StoredValue, cell: Cell | undefined, context: Context): CellValue {
  if (cell?.type === 'error') {
    const kind = String(value);
    if (kind === '#GETTING_DATA') return { error: '#BUSY!' };
    return { error: KINDS.has(kind) ? (kind as ErrorKind) : '#VALUE!' };
  }
  if (!(value instanceof Date)) return value;
  const number = context.numbers().get(at);
  return number === undefined ? null : number + context.dayShift;
}
