import { zipSync } from 'fflate';
import type { Book, DefinedName } from '../sheets/book';
import { callsOurs } from '../sheets/calls';
import { freeName } from '../sheets/realize';
import { unwritable, type XlsxError } from './error';
import { type CoverLine, coverXml } from './handover/cover';
import { addNote, freeze } from './handover/sheet';
import { addStyles } from './handover/styles';
import { addSheet, dropCalculationChain, editNames, growPrintArea, select } from './handover/workbook';
import { isSame, openInPlace } from './inplace';
import { readXlsx } from './read';

/** How a workbook becomes a copy without our functions. */
export interface Handover {
  /** Cells whose formula goes and whose result stays, by sheet. */
  readonly values: ReadonlyMap<string, readonly string[]>;
  /** Lines to write below what stands on a sheet. */
  readonly notes: ReadonlyMap<string, readonly string[]>;
  /** A sheet in front of the others that says what this is. */
  readonly cover: { readonly title: string; readonly lines: readonly CoverLine[] };
  /** Names that do not go along. */
  readonly dropped: (name: string) => boolean;
  /** A name for the workbook, which marks it as a copy. */
  readonly mark: DefinedName;
}

/**
 * An .xlsx file → the same file with some formulas replaced by their results, a cover and notes. The file's parts are
 * changed in place, so that charts, pictures and whatever else a Book does not know stay as they are. The outcome is
 * read again and compared before it is handed out.
 *
 * @throws XlsxError
 */
export async function handOver(bytes: Uint8Array, handover: Handover): Promise<Uint8Array> {
  const { before, parts, path, folder, sheets, edit } = await openInPlace(
    bytes,
    'make the copy of that',
    failed,
  );
  const lastRows = new Map<number, number>();
  sheets.forEach(({ name, path: part }, at) => {
    if (part === undefined) return;
    const cells = new Set(handover.values.get(name));
    const note = handover.notes.get(name) ?? [];
    edit(part, (text) => {
      const noted = note.length > 0 ? addNote(text, note) : { xml: text, lastRow: 0 };
      if (noted.lastRow > 0) lastRows.set(at, noted.lastRow);
      return select(cells.size > 0 ? freeze(noted.xml, cells) : noted.xml, false);
    });
  });
  const title = freeName(
    handover.cover.title,
    sheets.map(({ name }) => name),
  );
  let looks = { title: 0, heading: 0, text: 0 };
  edit(`${folder}styles.xml`, (text) => {
    const added = addStyles(text);
    looks = added.looks;
    return added.xml;
  });
  dropCalculationChain(parts, folder);
  edit(path, (text) => growPrintArea(editNames(text, handover.dropped, handover.mark), lastRows));
  addSheet(parts, path, title, coverXml(handover.cover.lines, looks));
  const copy = zipSync(Object.fromEntries(parts), { level: 6 });
  compare(before, await readXlsx(copy), handover, title);
  return copy;
}

/** The copy must be the workbook, less what was meant to go. */
function compare(before: Book, after: Book, { values, dropped, mark }: Handover, title: string): void {
  if (after.sheets[0]?.name !== title || after.sheets.length !== before.sheets.length + 1) {
    throw failed('its sheets did not come out as they were');
  }
  before.sheets.forEach((sheet, at) => {
    const copy = after.sheets[at + 1]!;
    const gone = new Set(values.get(sheet.name));
    if (copy.name !== sheet.name) throw failed(`the sheet "${sheet.name}" is not where it was`);
    for (const [address, cell] of Object.entries(sheet.cells)) {
      const now = copy.cells[address];
      const where = `${address} of "${sheet.name}"`;
      if (!isSame(cell.value, now?.value ?? null)) throw failed(`${where} has another value`);
      const formula = gone.has(address) ? undefined : cell.formula;
      if (now?.formula !== formula) throw failed(`${where} has another formula`);
    }
    if (Object.values(copy.cells).some(({ formula }) => formula !== undefined && callsOurs(formula))) {
      throw failed(`a function of ours is left on "${sheet.name}"`);
    }
    requireNames(sheet.names, copy.names, dropped, `of "${sheet.name}"`);
  });
  requireNames([...before.names, mark], after.names, dropped, 'of the workbook');
}

function requireNames(
  before: readonly DefinedName[],
  after: readonly DefinedName[],
  dropped: (name: string) => boolean,
  whose: string,
): void {
  const wanted = before.filter(({ name }) => !dropped(name));
  const now = new Map(after.map((name) => [name.name, name.refersTo]));
  for (const { name, refersTo } of wanted) {
    if (now.get(name) !== refersTo) throw failed(`the name ${name} ${whose} did not come along`);
  }
  if (after.length !== wanted.length) throw failed(`the names ${whose} are not the same`);
}

function failed(why: string): XlsxError {
  return unwritable(
    `The copy could not be made: ${why}.`,
    'Save the workbook anew in a spreadsheet program and try again; if it stays, please report it.',
  );
}
