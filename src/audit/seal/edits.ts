import type { Book, DefinedName } from '../../sheets/book';

/** Names to take away and to set, of one sheet or (without `sheet`) of the workbook. Nothing else is changed. */
export interface NameEdits {
  readonly sheet?: string;
  /** What these names must hold when it is written, nothing where `refersTo` is left out: else somebody else was first. */
  readonly expects?: readonly { readonly name: string; readonly refersTo?: string }[];
  readonly remove: readonly string[];
  readonly set: readonly DefinedName[];
}

/** The book with the names changed. */
export function applyEdits(book: Book, edits: readonly NameEdits[]): Book {
  let { names, sheets } = book;
  for (const { sheet, remove, set } of edits) {
    if (sheet === undefined) names = edited(names, remove, set);
    else
      sheets = sheets.map((each) =>
        each.name === sheet ? { ...each, names: edited(each.names, remove, set) } : each,
      );
  }
  return { ...book, names, sheets };
}

function edited(
  names: readonly DefinedName[],
  remove: readonly string[],
  set: readonly DefinedName[],
): DefinedName[] {
  const gone = new Set([...remove, ...set.map(({ name }) => name)].map((name) => name.toLowerCase()));
  return [...names.filter(({ name }) => !gone.has(name.toLowerCase())), ...set];
}
