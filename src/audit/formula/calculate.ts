import type { BookCell, BookSheet, CellValue } from '../../sheets/book';
import { once } from '../once';
import { scopeOf, viewOf } from '../view';
import { evaluate } from './evaluate';
import { parse } from './parse';

/** Longer chains of cells than any sheet of ours has; beyond it a stored value is taken as it stands. */
const CHAIN = 200;

/** `parse` with a memory: the same formulas stand on every sheet of a kind. */
export const parseOnce = once(parse);

/**
 * A sheet with the results of its formulas, computed from its inputs without a spreadsheet program. A formula
 * we cannot compute keeps its stored value, and so does one that refers to itself.
 */
export function calculate(sheet: BookSheet): BookSheet {
  const values = new Map<string, CellValue>();
  const view = viewOf(sheet);
  const computed = (at: string, chain: number): CellValue => {
    const cell = sheet.cells[at];
    if (cell?.formula === undefined) return cell?.value ?? null;
    const known = values.get(at);
    if (known !== undefined) return known;
    // Before it is known it counts as it stands, which ends a circle.
    values.set(at, cell.value);
    const node = chain < CHAIN ? parseOnce(cell.formula) : undefined;
    const value =
      node &&
      evaluate(
        node,
        scopeOf(view, (other) => computed(other, chain + 1)),
      );
    values.set(at, value === undefined ? cell.value : value);
    return values.get(at)!;
  };
  const cells: Record<string, BookCell> = {};
  for (const [at, cell] of Object.entries(sheet.cells)) {
    cells[at] = cell.formula === undefined ? cell : { ...cell, value: computed(at, 0) };
  }
  return { ...sheet, cells };
}
