import type { Book, BookCell, BookSheet, CellValue } from '../sheets/book';
import type { Plan } from '../sheets/plan';
import { realize } from '../sheets/realize';
import { isForTyping } from './check/contents';
import { calculator } from './formula/calculate';
import { foreignSheets } from './kinds/links';
import { builtToday, isOlder } from './today';
import { cellAt, type SheetView, sheetOf, viewOf } from './view';

/** A sheet of today's layout and the plan it was built from. */
export interface Planned {
  readonly view: SheetView;
  readonly plan: Plan;
}

/**
 * The sheets of today's layout that a sheet follows from, by its plan: itself first, then what it is linked to, and what
 * that is linked to. Others, those of earlier layouts among them, count as they stand.
 */
export function sourcesOf(own: Planned, book: Book | undefined): Planned[] {
  const found = new Map([[own.view, own]]);
  for (const each of found.values()) {
    for (const name of linksOf(each)) {
      const view = book && sheetOf(book, name);
      if (!view?.identity || isOlder(view) || found.has(view)) continue;
      const expected = builtToday(view, book);
      if (expected.known) found.set(view, { view, plan: expected.plan });
    }
  }
  return [...found.values()];
}

function linksOf({ view, plan }: Planned): Set<string> {
  const links = Object.values(plan.cells).flatMap(({ formula }) =>
    formula?.includes('!') ? foreignSheets(view, formula) : [],
  );
  return new Set(links);
}

/**
 * What a cell of a sheet holds by its plan and by what was typed, here and on the sheets it follows from: they are built
 * again and calculated anew. Undefined where that cannot be said.
 *
 * @param sources as `sourcesOf` gives them
 */
export function calculatedAgain(
  sources: readonly Planned[],
  book: Book | undefined,
): (at: string) => CellValue | undefined {
  const [own] = sources as readonly [Planned, ...Planned[]];
  const again = new Map(sources.map((each) => [each.view.sheet, builtAgain(each)]));
  const sheets = (book?.sheets ?? [own.view.sheet]).map((sheet) => again.get(sheet) ?? sheet);
  const anew = new Set([...again.values()].map((sheet) => viewOf(sheet)));
  const { computed } = calculator({ names: [], ...book, sheets }, (view) => !anew.has(view));
  const view = viewOf(again.get(own.view.sheet)!);
  return (at) => computed(view, at);
}

function builtAgain({ view, plan }: Planned): BookSheet {
  const sheet = realize(plan, view.sheet.name);
  const cells = Object.fromEntries(
    Object.entries(sheet.cells).map(([at, cell]) => [at, typedInto(cell, view, plan, at)]),
  );
  return { ...sheet, cells };
}

function typedInto(cell: BookCell, view: SheetView, { cells }: Plan, at: string): BookCell {
  const planned = cells[at]!;
  if (!isForTyping(planned)) return cell;
  const { value = null, formula } = cellAt(view, at) ?? {};
  // A figure typed over its link counts, a link that says another thing does not.
  if (planned.formula !== undefined) return formula === undefined ? { ...cell, value, formula } : cell;
  return { ...cell, value, ...(formula === undefined ? {} : { formula }) };
}
