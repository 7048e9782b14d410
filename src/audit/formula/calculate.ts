import type { BookSheet, CellValue } from '../../sheets/book';
import type { SheetKind } from '../../sheets/plan';
import { once } from '../once';
import { cellAt, gridAt, type SheetView, viewOf } from '../view';
import { evaluate, type Scope } from './evaluate';
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
  return calculateAll([sheet], () => true)[0]!;
}

/** Kinds whose every plain formula is held against another program's results; others use functions we do not have. */
const KINDS: ReadonlySet<SheetKind> = new Set(['run', 'need', 'offers', 'comparison', 'spot', 'overview']);

/**
 * The same for sheets of ours that refer to each other. What depends on a formula that we cannot compute and that
 * has no stored value is not computed either: a guess from an empty cell would be a wrong result.
 */
export function calculateAll(
  sheets: readonly BookSheet[],
  isOurs: (view: SheetView) => boolean = ({ identity }) => identity !== undefined && KINDS.has(identity.kind),
): BookSheet[] {
  const views = sheets.map(viewOf);
  const byName = new Map(views.map((view) => [view.sheet.name.toLowerCase(), view]));
  const values = new Map<SheetView, Map<string, CellValue | undefined>>(
    views.map((view) => [view, new Map()]),
  );
  /** Undefined: it cannot be said. */
  const computed = (view: SheetView, at: string, chain: number): CellValue | undefined => {
    const cell = cellAt(view, at);
    if (cell?.formula === undefined) return cell?.value ?? null;
    if (!isOurs(view)) return cell.value ?? undefined;
    const known = values.get(view)!;
    if (known.has(at)) return known.get(at);
    // Before it is known it counts as it stands, which ends a circle.
    known.set(at, cell.value);
    const node = chain < CHAIN ? parseOnce(cell.formula) : undefined;
    const result = node && evaluate(node, scope(view, chain + 1));
    const value = result !== undefined ? result : (cell.value ?? undefined);
    known.set(at, value);
    return value;
  };
  const grid = (view: SheetView | undefined, address: string | undefined, chain: number) => {
    if (!view || address === undefined) return undefined;
    let isKnown = true;
    const found = gridAt(view, address, (at) => {
      const value = computed(view, at, chain);
      if (value === undefined) isKnown = false;
      return value ?? null;
    });
    return isKnown ? found : undefined;
  };
  const scope = (view: SheetView, chain: number): Scope => {
    const where = (sheet: string | undefined) =>
      sheet === undefined ? view : byName.get(sheet.toLowerCase());
    return {
      range: (address, sheet) => grid(where(sheet), address, chain),
      name: (name, sheet) => grid(where(sheet), where(sheet)?.places.get(name.toLowerCase())?.address, chain),
    };
  };
  return views.map((view) => ({
    ...view.sheet,
    cells: Object.fromEntries(
      Object.entries(view.sheet.cells).map(([at, cell]) => [
        at,
        cell.formula === undefined ? cell : { ...cell, value: computed(view, at, 0) ?? cell.value },
      ]),
    ),
  }));
}
