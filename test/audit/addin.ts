import { referencesOf } from '../../src/audit/formula/references';
import { viewOf } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import type { BookSheet } from '../../src/sheets/book';

/** Cells that call the add-in, and what is computed from them on the same sheet. */
export function addInCells(sheet: BookSheet): Set<string> {
  const view = viewOf(sheet);
  const formulas = Object.entries(sheet.cells).filter(([, { formula }]) => formula !== undefined);
  const found = new Set(formulas.filter(([, { formula }]) => /LIGHT\./.test(formula!)).map(([at]) => at));
  for (let before = -1; before < found.size; ) {
    before = found.size;
    for (const [at, { formula }] of formulas) {
      const from = referencesOf(view, formula!).flatMap(cellsOf);
      if (from.some((cell) => found.has(cell))) found.add(at);
    }
  }
  return found;
}
