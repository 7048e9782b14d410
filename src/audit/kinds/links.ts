import type { Book } from '../../sheets/book';
import { nodesOf } from '../formula/ast';
import { parseOnce } from '../formula/calculate';
import { isOwnSheet, type SheetView, sheetOf } from '../view';
import { majority } from './cells';
import type { Unknown } from './kind';

/** Names of other sheets that a formula refers to, each once, as they are written. */
export function foreignSheets(view: SheetView, formula: string): string[] {
  if (!formula.includes('!')) return [];
  const node = parseOnce(formula);
  if (!node) return [];
  const found = new Set<string>();
  for (const part of nodesOf(node)) {
    if ((part.kind === 'range' || part.kind === 'name') && !isOwnSheet(view, part.sheet)) {
      found.add(part.sheet!);
    }
  }
  return [...found];
}

/** Names of all other sheets that the formulas of a sheet refer to. */
export function linkedSheets(view: SheetView): string[] {
  const found = new Map<string, string>();
  for (const { formula } of Object.values(view.sheet.cells)) {
    if (formula === undefined) continue;
    for (const name of foreignSheets(view, formula)) {
      if (!found.has(name.toLowerCase())) found.set(name.toLowerCase(), name);
    }
  }
  return [...found.values()];
}

/** The sheet that most formulas among some cells are linked to, or why there is none to be had. */
export function linkedTo(
  view: SheetView,
  cells: readonly string[],
  book: Book | undefined,
): SheetView | Unknown {
  const names = cells.flatMap((at) => foreignSheets(view, view.sheet.cells[at]?.formula ?? ''));
  const name = majority(names.map((each) => each.toLowerCase()));
  if (name === undefined) return { why: 'Its links to a run sheet are lost.' };
  const shown = names.find((each) => each.toLowerCase() === name)!;
  if (!book) return { why: `It is linked to “${shown}”, which was not looked at.` };
  const sheet = sheetOf(book, name);
  return sheet ?? { why: `It is linked to “${shown}”, which is not in this workbook.` };
}
