import { cellCount, cellsOf } from '../../sheets/address';
import type { CellValue } from '../../sheets/book';
import { AREA_MAX, isOwnSheet, placeNamed, type SheetView } from '../view';
import { nodesOf } from './ast';
import { parseOnce } from './calculate';
import { isError } from './value';

/** Areas of its own sheet that a formula refers to, directly or by name, each once. */
export function referencesOf(view: SheetView, formula: string): string[] {
  const node = parseOnce(formula);
  if (!node) return [];
  const found = new Set<string>();
  for (const part of nodesOf(node)) {
    if (part.kind === 'range' && isOwnSheet(view, part.sheet)) found.add(part.address);
    if (part.kind === 'name' && isOwnSheet(view, part.sheet)) {
      const place = placeNamed(view, part.name);
      if (place) found.add(place.address);
    }
  }
  return [...found];
}

function spillOf({ sheet }: SheetView, at: string): string[] {
  const spill = sheet.cells[at]?.spill;
  return spill === undefined ? [] : cellsOf(spill);
}

/** What cells that only a function can fill say in a program without the add-in. */
const WITHOUT_ADD_IN: ReadonlySet<unknown> = new Set(['remarks need the add-in', 'needs the functions']);

export function isWithoutAddIn(value: CellValue): boolean {
  return WITHOUT_ADD_IN.has(value);
}

const lacking = new WeakMap<SheetView, ReadonlySet<string>>();

/** Cells whose result lacks because the add-in was absent, and all that are computed from them. A look is kept. */
export function withoutAddIn(view: SheetView): ReadonlySet<string> {
  const known = lacking.get(view) ?? findLacking(view);
  lacking.set(view, known);
  return known;
}

function findLacking(view: SheetView): Set<string> {
  const formulas = Object.entries(view.sheet.cells).flatMap(([at, { formula, value }]) =>
    formula === undefined ? [] : [{ at, formula, value }],
  );
  const ours = formulas.filter(({ formula }) => /LIGHT[._]/i.test(formula));
  const isAbsent = ours.some(({ value }) => isError(value) && value.error === '#NAME?');
  // Where it is absent, a call inside another function may come out as any error.
  const lacks = (value: CellValue) => isWithoutAddIn(value) || (isAbsent && isError(value));
  const found = new Set(ours.filter(({ value }) => lacks(value)).map(({ at }) => at));
  if (found.size === 0) return found;
  // What such a function fills lacks with it.
  for (const at of [...found]) for (const filled of spillOf(view, at)) found.add(filled);
  const sources = formulas.map(({ at, formula }) => ({
    at,
    from: referencesOf(view, formula).flatMap((area) => (cellCount(area) > AREA_MAX ? [] : cellsOf(area))),
  }));
  for (let before = -1; before < found.size; ) {
    before = found.size;
    for (const { at, from } of sources) if (from.some((cell) => found.has(cell))) found.add(at);
  }
  return found;
}
