import type { Cell, CellValue as StoredValue } from 'hucre';
import { rectOf } from '../sheets/address';
import { type BookCell, type CellValue, isErrorKind } from '../sheets/book';
import { callsOurs } from '../sheets/calls';
import { moveFormula } from '../sheets/move';
import { damaged } from './error';
import { showFormula } from './formula';
import type { StoredNumbers } from './stored';
import { showStyle } from './style';

/** What a cell needs to know of its file. */
export interface Context {
  readonly theme: readonly string[];
  /** Added to dates of a file that counts its days from 1904. */
  readonly dayShift: number;
  /** The sheet's numbers and dates as they stand in the file; asked for when there is a date. */
  stored(): StoredNumbers;
}

/** How a text begins that may be a date of a strict workbook. */
const ISO_DATE = /^\s*\d{4}-\d\d-\d\d/;

/** A stored cell → ours; undefined for an empty cell without a style. `masters` are the shared formulas so far. */
export function showCell(
  at: string,
  value: StoredValue,
  cell: Cell | undefined,
  masters: ReadonlyMap<number, { at: string; cell: Cell }>,
  context: Context,
): BookCell | undefined {
  const formula = cell && formulaOf(at, cell, masters);
  const style = showStyle(cell?.style, context.theme);
  const shown = showValue(at, value, cell, context);
  if (shown === null && formula === undefined && style === undefined) return undefined;
  return {
    value: shown,
    ...(formula === undefined ? {} : { formula }),
    ...(formula !== undefined && isArray(formula, cell) ? { spill: cell?.formulaRef ?? at } : {}),
    ...(style === undefined ? {} : { style }),
  };
}

/**
 * An array formula in one cell is one too: stored plainly, it would be calculated for one cell of each range. A call
 * of ours in one cell is stored as an array whatever it gives.
 */
function isArray(formula: string, cell: Cell | undefined): boolean {
  return cell?.formulaType === 'array' && (cell.formulaRef?.includes(':') === true || !callsOurs(formula));
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
    return { error: isErrorKind(kind) ? kind : '#VALUE!' };
  }
  if (typeof value === 'string' && ISO_DATE.test(value)) return context.stored().dates.get(at) ?? value;
  if (!(value instanceof Date)) return value;
  const number = context.stored().numbers.get(at);
  if (number === undefined) throw damaged(`the date in its cell ${at} cannot be read`);
  return number + context.dayShift;
}
