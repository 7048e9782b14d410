import { quoteSheet } from '../../src/sheets/address';
import type { Book, BookCell, BookSheet } from '../../src/sheets/book';

/** A workbook whose sheets are called otherwise: references follow, as every spreadsheet program has it. */
export function renamed(book: Book, called: (name: string, at: number) => string): Book {
  const names = new Map(book.sheets.map(({ name }, at) => [quoteSheet(name), quoteSheet(called(name, at))]));
  const follow = (formula: string) =>
    formula.replace(/'(?:[^']|'')*'(?=!)/g, (quoted) => names.get(quoted) ?? quoted);
  const cell = (one: BookCell): BookCell =>
    one.formula === undefined ? one : { ...one, formula: follow(one.formula) };
  const sheets = book.sheets.map(
    (sheet, at): BookSheet => ({
      ...sheet,
      name: called(sheet.name, at),
      cells: Object.fromEntries(Object.entries(sheet.cells).map(([key, one]) => [key, cell(one)])),
      names: sheet.names.map((name) => ({ ...name, refersTo: follow(name.refersTo) })),
    }),
  );
  return { ...book, sheets };
}
