import { columnName, contains, rectOf } from '../../sheets/address';
import type { Book, BookSheet, DefinedName, Style } from '../../sheets/book';
import type { CellName } from '../../sheets/names/all';
import type { SheetKind } from '../../sheets/plan';
import { FONT } from '../../sheets/style';
import { tokens } from '../../sheets/tokens';
import type { SheetView } from '../view';
import { BOOK, REGISTER } from './names';
import { type Head, words } from './record';
import { readHistory } from './register';

/*
 * What of a sheet changes what a person sees without changing a cell. Only what a file and a spreadsheet program both
 * tell can be sealed, since the seal must be the same in both; the rest is told by a check of the file
 * (`check/seen.ts`).
 */

/** Lines of a seal that stand for the sheet as a whole: their key and their text. */
type Line = readonly [key: string, text: string];

/** Names of the workbook that seals keep themselves in. */
const OURS = new RegExp(`^(?:${BOOK}|${REGISTER})(?:\\.\\d+)?$`, 'i');

/** Rows and columns up to this size are not seen, in points (1/72 in). */
export const UNSEEN = 2;
/** Pixels beside the digits of a column's width, and of a digit of our font (ECMA-376-1, 18.3.1.13). */
const [PADDING, DIGIT] = [128, 7];
const POINTS_PER_PIXEL = 0.75;

/** Whether a row of so many points is not seen. */
function isRowUnseen(points: number | undefined): boolean {
  return points !== undefined && points <= UNSEEN;
}
/** Whether a column as wide as so many digits is not seen. */
function isColumnUnseen(width: number | undefined): boolean {
  if (width === undefined) return false;
  const pixels = Math.trunc(((256 * width + Math.trunc(PADDING / DIGIT)) / 256) * DIGIT);
  return pixels * POINTS_PER_PIXEL <= UNSEEN;
}

/** How a figure is drawn: colour of its letters, colour behind it, size in points. */
export function lookOf({ color = '#000000', fill = '#FFFFFF', size = FONT.size }: Style = {}): string {
  return `${color.toUpperCase()} on ${fill.toUpperCase()}, ${size} pt`;
}

/** The tab, whether it is shown, what of it is not, and names of the workbook that stand in the way of its formulas. */
export function seenEntries(
  view: SheetView,
  book: Book,
  spelt: (formula: string) => string,
): readonly Line[] {
  const { sheet } = view;
  const unseen = unseenOf(view);
  return [
    ['tab', JSON.stringify(sheet.name)],
    ['state', sheet.visibility],
    ...unseen.rows.map((row): Line => [`row ${row}`, 'hidden']),
    ...unseen.columns.map((column): Line => [`column ${column}`, 'hidden']),
    ...shadows(sheet, book).map(
      ({ name, refersTo }): Line => [`name of the workbook ${name}`, spelt(refersTo)],
    ),
  ];
}

/** Who sealed when and where, and what was noted before: unsigned seals keep it by their hash. */
export function historyEntry({ sheet }: SheetView, head: Head): readonly Line[] {
  const { book, sequence, when, who, program } = head;
  const events = readHistory(sheet.names).map((event, at, all) =>
    // The seal's own event bears its hash, which cannot hold itself.
    at === all.length - 1 && event.what === 'sealed' ? { ...event, hash: '' } : event,
  );
  const told = events.map(({ what, when: then, who: name, why, hash }) =>
    [what, then, words(name), words(why), hash].join(' '),
  );
  const isNoted = told.at(-1) === ['sealed', when, words(who), '', ''].join(' ');
  return [
    ['made', [book, sequence, when, words(who), words(program)].join(' ')],
    ['history', isNoted ? told.join('; ') : `${told.join('; ')} and not this seal`],
  ];
}

/** Lists whose lines may be filtered, by a name of theirs. */
const FILTERED: Readonly<Partial<Record<SheetKind, CellName>>> = {
  acceptance: 'Serials',
  batch: 'Serials',
  offers: 'Bidders',
};

/** Rows and columns that hold something and are not seen. Lines of a list of ours that a filter hides are not told. */
export function unseenOf(view: SheetView): {
  readonly rows: readonly number[];
  readonly columns: readonly string[];
} {
  const { sheet } = view;
  const rows = Object.keys(sheet.rows)
    .filter((row) => isRowUnseen(sheet.rows[row]))
    .map(Number);
  const columns = Object.keys(sheet.columns).filter((column) => isColumnUnseen(sheet.columns[column]));
  if (rows.length === 0 && columns.length === 0) return { rows, columns };
  const filled = { rows: new Set<number>(), columns: new Set<string>() };
  for (const [at, { value, formula }] of Object.entries(sheet.cells)) {
    if ((value === null || value === '') && formula === undefined) continue;
    const { row, column } = rectOf(at);
    filled.rows.add(row + 1);
    filled.columns.add(columnName(column));
  }
  // A filter laid over anything else would hide results or readings without a word.
  const kind = view.identity?.kind;
  const list = kind && FILTERED[kind];
  const lines = list && view.places.get(list.toLowerCase());
  const filter = lines && sheet.filter && rectOf(sheet.filter.range);
  const isFiltered = (row: number) =>
    filter !== undefined &&
    [filter, rectOf(lines!.address)].every((area) =>
      contains(area, { row: row - 1, column: area.column, rows: 1, columns: 1 }),
    );
  return {
    rows: rows.filter((row) => filled.rows.has(row) && !isFiltered(row)).sort((a, b) => a - b),
    columns: columns.filter((column) => filled.columns.has(column)),
  };
}

/** Names of the workbook that a formula of the sheet mentions, as a function or as a name that the sheet has not. */
export function shadows(sheet: BookSheet, { names }: Book): readonly DefinedName[] {
  const own = new Set(sheet.names.map(({ name }) => name.toLowerCase()));
  return names
    .filter(({ name }) => !OURS.test(name) && !own.has(name.toLowerCase()))
    .filter(({ name }) => {
      const lower = name.toLowerCase();
      return Object.values(sheet.cells).some(
        ({ formula }) =>
          formula?.toLowerCase().includes(lower) === true &&
          tokens(formula).some(
            ({ kind, text }) => (kind === 'call' || kind === 'word') && text.toLowerCase() === lower,
          ),
      );
    })
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Whether a name points at the same cells wherever it is used. */
export function isAbsolute(refersTo: string): boolean {
  return tokens(refersTo).every(({ kind, text }) => {
    if (kind === 'cell') return /^\$[A-Z]+\$\d+$/i.test(text);
    return kind !== 'lines' || /^\$\w+:\$\w+$/.test(text);
  });
}
