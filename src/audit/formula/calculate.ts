import type { Book, BookCell, BookSheet, CellValue } from '../../sheets/book';
import { once } from '../once';
import { cellAt, type SheetView, scopeOf, viewOf } from '../view';
import { evaluate } from './evaluate';
import { parse } from './parse';

/** Longer chains of cells than any sheet of ours has; beyond it a stored value is taken as it stands. */
const CHAIN = 200;

/** `parse` with a memory: the same formulas stand on every sheet of a kind. */
export const parseOnce = once(parse);

/** One sheet by itself: what it refers to on other sheets keeps its stored value. */
export function calculate(sheet: BookSheet): BookSheet {
  return calculateBook({ sheets: [sheet], names: [] }).sheets[0]!;
}

/** The same for the sheets of ours among some, which may refer to each other. */
export function calculateAll(sheets: readonly BookSheet[]): BookSheet[] {
  const { sheets: all } = calculateBook({ sheets, names: [] });
  return all.map((sheet, i) => (viewOf(sheet).identity ? sheet : sheets[i]!));
}

/**
 * A workbook with the results of its formulas, computed from its inputs without a spreadsheet program. A formula
 * we cannot compute keeps its stored value, and so does one that refers to itself. What depends on a formula that
 * we cannot compute and that has no stored value is not computed either: a guess from an empty cell would be a
 * wrong result.
 */
export function calculateBook(book: Book): Book {
  const found = new Map<SheetView, Map<string, CellValue | undefined>>();
  let chain = 0;
  /** Undefined: it cannot be said. */
  const computed = (view: SheetView, at: string): CellValue | undefined => {
    const cell = cellAt(view, at);
    if (cell?.formula === undefined) return cell?.value ?? null;
    const values = found.get(view) ?? new Map<string, CellValue | undefined>();
    found.set(view, values);
    if (values.has(at)) return values.get(at);
    // Before it is known it counts as it stands, which ends a circle.
    values.set(at, cell.value);
    const node = chain < CHAIN ? parseOnce(cell.formula) : undefined;
    chain++;
    const result = node && evaluate(node, scopeOf(view, book, computed));
    chain--;
    const value = result !== undefined ? result : (cell.value ?? undefined);
    values.set(at, value);
    return value;
  };
  return { ...book, sheets: book.sheets.map((sheet) => withValues(sheet, computed)) };
}

function withValues(
  sheet: BookSheet,
  computed: (view: SheetView, at: string) => CellValue | undefined,
): BookSheet {
  const view = viewOf(sheet);
  const cells: Record<string, BookCell> = {};
  for (const [at, cell] of Object.entries(sheet.cells)) {
    cells[at] = cell.formula === undefined ? cell : { ...cell, value: computed(view, at) ?? cell.value };
  }
  return { ...sheet, cells };
}
