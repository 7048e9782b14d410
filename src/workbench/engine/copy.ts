import type { Engine } from './engine';
import type { Name } from './names';
import { parseReference, sheetPrefix } from './reference';
import type { Sheet } from './sheet';
import { tokenize } from './tokens';

/**
 * Copies a sheet as Excel does: cells, looks and everything kept beside them, and every name of the sheet as
 * a name of the copy. Workbook names that lie on the sheet get a twin of the copy (from memory of Excel's
 * behaviour). The copy is called "Run 1 (2)".
 */
export function copySheet(engine: Engine, source: Sheet, index: number): Sheet {
  engine.writeLooks();
  const title = copyName(source.name, (name) => engine.sheetByName(name) !== undefined);
  const config = structuredClone(source.shown.getSheet().getConfig());
  const formulas: { row: number; column: number; formula: string }[] = [];
  for (const { row, column } of engine.port.cells(source.id)) {
    const formula = source.formula(row, column);
    if (formula !== undefined) formulas.push({ row, column, formula });
  }
  for (const { row, column } of formulas) {
    const cell = config.cellData[row]?.[column];
    if (cell) for (const key of ['f', 'si', 'v', 't'] as const) delete cell[key];
  }
  const { id: _id, name: _name, ...content } = config;
  const copy = engine.addSheet(title, index, content as unknown as Record<string, unknown>);
  copyBeside(engine, source, copy);
  for (const { row, column, formula } of formulas)
    copy.enter({ row, column, rows: 1, columns: 1 }, () => ({ kind: 'formula', formula }));
  return copy;
}

/** Finishes a copy that a person made with the engine's own command, which copies cells and looks only. */
export function completeCopy(engine: Engine, source: Sheet, copy: Sheet): void {
  copyBeside(engine, source, copy);
  for (const { row, column, cell } of engine.port.cells(copy.id)) {
    const formula = cell.f ?? engine.port.cell(copy.id, row, column)?.f;
    if (!formula) continue;
    const entry = { kind: 'formula', formula: engine.decode(formula, source.id) } as const;
    copy.enter({ row, column, rows: 1, columns: 1 }, () => entry);
  }
}

/** What is kept beside the cells, and the names, from one sheet to another that has the same cells. */
function copyBeside(engine: Engine, source: Sheet, copy: Sheet): void {
  for (const { row, column } of source.unlocked.entries()) copy.unlocked.set(row, column, true);
  for (const { row, column, item } of source.notes.entries()) copy.notes.set(row, column, item);
  copy.validations = structuredClone(source.validations);
  copy.formats = structuredClone(source.formats).map((item) => ({ ...item, id: engine.nextId() }));
  copy.page = structuredClone(source.page);
  copy.filter = source.filter;
  const moved = (name: Name) => moveReferences(name.refersTo, source.name, copy.name);
  for (const name of engine.names.of(source.id))
    engine.formulas.define(name.name, copy.id, moved(name), name.comment, name.hidden);
  for (const name of engine.names.of(undefined)) {
    const isThere = engine.names.find(name.name, copy.id) !== undefined;
    if (!isThere && parseReference(name.refersTo)?.sheet.toLowerCase() === source.name.toLowerCase())
      engine.formulas.define(name.name, copy.id, moved(name), name.comment, name.hidden);
  }
  if (source.protection) engine.setProtection(copy, structuredClone(source.protection));
  engine.looksChanged(copy);
}

/** `='Run 1'!$B$2` → `='Run 1 (2)'!$B$2`. */
function moveReferences(formula: string, from: string, to: string): string {
  return tokenize(formula)
    .map((token) =>
      token.kind === 'sheet' && token.sheet.toLowerCase() === from.toLowerCase()
        ? sheetPrefix(to)
        : token.text,
    )
    .join('');
}

/** Excel's name for a copy: `Run` → `Run (2)`, `Run (2)` → `Run (3)`, cut so that it fits 31 characters. */
function copyName(name: string, isTaken: (name: string) => boolean): string {
  const stem = name.replace(/ \(\d+\)$/, '');
  for (let n = 2; ; n++) {
    const suffix = ` (${n})`;
    const title = stem.slice(0, 31 - suffix.length) + suffix;
    if (!isTaken(title)) return title;
  }
}
