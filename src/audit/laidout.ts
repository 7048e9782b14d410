import { cellName, type Rect, rectOf } from '../sheets/address';
import type { BookCell, CellValue } from '../sheets/book';
import { namesIn } from '../sheets/inner';
import type { Plan } from '../sheets/plan';
import { realize } from '../sheets/realize';
import { type SheetView, valueAt, viewOf } from './view';

/** A sheet of an earlier layout as if it had been built today. */
export interface LaidOut {
  readonly view: SheetView;
  /** Where on the sheet as it is a cell of the plan stands; cells without a name that both have are missing. */
  readonly places: ReadonlyMap<string, string>;
}

/**
 * Which row of a name's cells was which: the same, counted from the first, but where lines have come or gone in
 * between, and those are known by the labels at their left.
 */
function rowsBetween(
  older: SheetView,
  { cells }: Plan,
  now: Rect,
  then: Rect,
): (row: number) => number | undefined {
  const label = (row: number) => cells[cellName(now.row + row, LABELS)];
  const isLabelled = now.columns === then.columns && label(0)?.role === 'label' && now.rows > 1;
  if (now.rows === then.rows || !isLabelled) return (row) => (row < then.rows ? row : undefined);
  const was = new Map<CellValue, number>();
  for (let r = 0; r < then.rows; r++) was.set(valueAt(older, cellName(then.row + r, LABELS)), r);
  return (row) => was.get(label(row)?.value ?? null);
}

/** Labels of lines stand in the first column. */
const LABELS = 0;

/**
 * An older sheet, laid out by today's plan: what stands behind a name goes where the plan has that name, cell by
 * cell. Names keep their meaning from layout to layout; places do not. Other cells have the plan's fixed words, or
 * nothing.
 */
export function laidOut(older: SheetView, plan: Plan): LaidOut {
  const places = new Map<string, string>();
  for (const { name, range } of namesIn(plan)) {
    const place = older.places.get(name.toLowerCase());
    if (!place) continue;
    const [now, then] = [rectOf(range), rectOf(place.address)];
    const rowOf = rowsBetween(older, plan, now, then);
    for (let r = 0; r < now.rows; r++) {
      const was = rowOf(r);
      if (was === undefined) continue;
      for (let c = 0; c < Math.min(now.columns, then.columns); c++) {
        const at = cellName(now.row + r, now.column + c);
        if (!places.has(at)) places.set(at, cellName(then.row + was, then.column + c));
      }
    }
  }
  const sheet = realize(plan, older.sheet.name);
  const cells: Record<string, BookCell> = {};
  for (const [at, cell] of Object.entries(sheet.cells)) {
    const was = places.get(at);
    const isFixed = cell.formula === undefined && cell.style?.locked !== false;
    const value = was === undefined ? (isFixed ? cell.value : null) : older.sheet.cells[was]?.value;
    cells[at] = { ...cell, value: value ?? null };
  }
  return { view: viewOf({ ...sheet, cells }), places };
}
