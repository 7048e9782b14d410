import { cellName, cellsOf, rectOf } from '../../sheets/address';
import type { Book, BookCell, BookSheet, CellValue } from '../../sheets/book';
import { once } from '../once';
import { cellAt, type SheetView, scopeOf, viewOf } from '../view';
import { evaluate, evaluateWhole, isTableFormula } from './evaluate';
import { parse } from './parse';
import { failed, type Grid, isGrid, single } from './value';

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
  const { computed, tablesOf } = calculator(book);
  return { ...book, sheets: book.sheets.map((sheet) => withValues(sheet, computed, tablesOf)) };
}

/** Computes the cells of a workbook that are asked for, each once. */
interface Calculator {
  /** Undefined: it cannot be said. */
  readonly computed: (view: SheetView, at: string) => CellValue | undefined;
  readonly tablesOf: (view: SheetView) => Tables;
}

/** @param isAsItStands sheets whose results are taken as they are stored; none if left out */
export function calculator(book: Book, isAsItStands: (view: SheetView) => boolean = () => false): Calculator {
  const found = new Map<SheetView, Map<string, CellValue | undefined>>();
  const tables = new Map<SheetView, Tables>();
  let chain = 0;
  /** What functions that give a table fill beside their own cells. */
  const tablesOf = (view: SheetView): Tables => {
    const known = tables.get(view);
    if (known) return known;
    // While they are computed nothing is filled yet: no table of ours rests on what it fills.
    const own: Tables = { filled: new Map(), spills: new Map() };
    tables.set(view, own);
    for (const [at, { formula }] of Object.entries(view.sheet.cells)) {
      if (formula !== undefined && isTableFormula(formula)) computed(view, at);
    }
    return own;
  };
  const computed = (view: SheetView, at: string): CellValue | undefined => {
    const cell = cellAt(view, at);
    if (isAsItStands(view)) return cell?.value ?? null;
    if (cell?.formula === undefined) {
      const { filled } = tablesOf(view);
      return filled.has(at) ? filled.get(at)! : (cell?.value ?? null);
    }
    const values = found.get(view) ?? new Map<string, CellValue | undefined>();
    found.set(view, values);
    if (values.has(at)) return values.get(at);
    // Before it is known it counts as it stands, which ends a circle.
    values.set(at, cell.value);
    const node = chain < CHAIN ? parseOnce(cell.formula) : undefined;
    chain++;
    const scope = scopeOf(view, book, computed);
    let result: CellValue | undefined;
    if (node && isTableFormula(cell.formula)) {
      const whole = evaluateWhole(node, scope);
      if (whole !== undefined) result = isGrid(whole) ? spill(view, at, whole, tablesOf(view)) : whole;
    } else if (node) result = evaluate(node, scope);
    chain--;
    const value = result !== undefined ? result : (cell.value ?? undefined);
    values.set(at, value);
    return value;
  };
  return { computed, tablesOf };
}

interface Tables {
  readonly filled: Map<string, CellValue>;
  /** The areas that are filled, by the cell of the function; `undefined` where it fills none. */
  readonly spills: Map<string, string | undefined>;
}

/** Fills a function's table into the cells from its own on, unless something stands in the way; its own value. */
function spill(view: SheetView, at: string, table: Grid, { filled, spills }: Tables): CellValue {
  const before = new Set(areaOf(cellAt(view, at)?.spill));
  for (const cell of before) if (cell !== at) filled.set(cell, null);
  spills.set(at, undefined);
  const { row, column } = rectOf(at);
  const [rows, columns] = [table.length, table[0]?.length ?? 0];
  if (rows * columns < 2) return single(table);
  const area = `${at}:${cellName(row + rows - 1, column + columns - 1)}`;
  const cells = cellsOf(area);
  const isBlocked = cells.some((cell) => {
    const { formula, value = null } = cellAt(view, cell) ?? {};
    if (cell === at) return false;
    return formula !== undefined || (!before.has(cell) && value !== null && value !== '');
  });
  if (isBlocked) return failed('#SPILL!');
  const values = table.flat();
  cells.forEach((cell, i) => {
    if (cell !== at) filled.set(cell, values[i] ?? null);
  });
  spills.set(at, area);
  return values[0] ?? null;
}

function areaOf(spilled: string | undefined): string[] {
  return spilled === undefined ? [] : cellsOf(spilled);
}

function withValues(
  sheet: BookSheet,
  computed: (view: SheetView, at: string) => CellValue | undefined,
  tablesOf: (view: SheetView) => Tables,
): BookSheet {
  const view = viewOf(sheet);
  const { filled, spills } = tablesOf(view);
  const cells: Record<string, BookCell> = {};
  for (const [at, cell] of Object.entries(sheet.cells)) {
    if (cell.formula === undefined) {
      cells[at] = filled.has(at) ? { ...cell, value: filled.get(at)! } : cell;
      continue;
    }
    const { spill: before, ...rest } = cell;
    const area = spills.has(at) ? spills.get(at) : before;
    cells[at] = {
      ...rest,
      value: computed(view, at) ?? cell.value,
      ...(area === undefined ? {} : { spill: area }),
    };
  }
  for (const [at, value] of filled) cells[at] ??= { value };
  return { ...sheet, cells };
}
