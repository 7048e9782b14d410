import { strFromU8, zipSync } from 'fflate';
import {
  type Book,
  type BookCell,
  type BookSheet,
  type DefinedName,
  EMPTY_SHEET,
  type Validation,
} from '../sheets/book';
import { unwritable, type XlsxError } from './error';
import { dropCalculationChain, growPrintArea } from './handover/workbook';
import { isSame, openInPlace } from './inplace';
import { storeNames } from './names';
import { links, openParts } from './parts';
import { readXlsx } from './read';
import { putCells } from './rewrite/cells';
import { graft } from './rewrite/graft';
import { FurtherLooks, putLooks, type Safeguard, safeguardOf } from './rewrite/looks';
import { changeNames, type PlacedName } from './rewrite/names';
import { putProtection, putRules } from './rewrite/safeguards';
import { writeXlsx } from './write';

/**
 * An .xlsx file → the same file as a Book has it by now: names, the contents of cells, their number formats
 * and locks, input rules, protection, and sheets that came behind the others. Its parts are changed in place, so that charts, pictures, comments and whatever else a Book does not know
 * stay as they are. The outcome is read again and compared before it is handed out.
 *
 * @param after the Book that was read from these bytes, changed: none of its sheets gone, renamed or moved
 * @throws XlsxError
 */
export async function rewriteXlsx(bytes: Uint8Array, after: Book): Promise<Uint8Array> {
  const { before, parts, path, folder, sheets, edit } = await openInPlace(bytes, 'use that', failed);
  const placeOf = (name: string) => sheets.findIndex((sheet) => sheet.name === name);
  const lastRows = new Map<number, number>();
  const safeguarded: BookSheet[] = [];
  const relooked = new Map<number, ReadonlyMap<string, Safeguard>>();
  let hasFormulas = false;
  before.sheets.forEach((sheet, i) => {
    const now = after.sheets[i];
    if (now?.name !== sheet.name) throw failed(`its sheet "${sheet.name}" would be lost`);
    if (isOtherwise(sheet, now)) safeguarded.push(now);
    const cells = changedCells(sheet, now);
    const looks = changedLooks(sheet, now);
    for (const at of looks.keys()) if (!Object.hasOwn(sheet.cells, at)) cells.set(at, now.cells[at]!);
    if (looks.size > 0) relooked.set(placeOf(sheet.name), looks);
    if (cells.size === 0) return;
    hasFormulas ||= [...cells].some(([at, { formula }]) => formula !== sheet.cells[at]?.formula);
    const place = placeOf(sheet.name);
    edit(sheets[place]!.path!, (text) => putCells(text, cells, now.rows));
    const last = /(\d+)$/.exec(now.print?.area ?? '')?.[1];
    if (last !== undefined) lastRows.set(place, Number(last));
  });
  if (hasFormulas) dropCalculationChain(parts, folder);
  if (relooked.size > 0) {
    const styles = links(parts, path).find(({ kind }) => kind === 'styles')?.part;
    if (styles === undefined) throw failed('it has no styles');
    edit(styles, (text) => {
      const further = new FurtherLooks(text);
      for (const [place, looks] of relooked)
        edit(sheets[place]!.path!, (sheet) => putLooks(sheet, looks, further));
      return further.written();
    });
  }
  for (const sheet of safeguarded) {
    const donor = strFromU8(
      openParts(await writeXlsx(bare(sheet)), () => true).get('xl/worksheets/sheet1.xml')!,
    );
    edit(sheets[placeOf(sheet.name)]!.path!, (text) => {
      const ruled = putRules(text, donor);
      return sheet.isProtected ? putProtection(ruled, donor) : ruled;
    });
  }
  const added = after.sheets.slice(before.sheets.length);
  if (added.length > 0) {
    const donor = { sheets: added, names: [], active: added[0]!.name };
    graft(
      parts,
      path,
      openParts(await writeXlsx(donor), () => true),
      added.map(({ name }) => name),
    );
  }
  const names = changedNames(before, after, placeOf);
  const own = storeNames({ sheets: added, names: [] }).map(
    ({ name, range, scope, comment, isHidden }): PlacedName => ({
      name,
      refersTo: range,
      sheet: sheets.length + added.findIndex((sheet) => sheet.name === scope),
      ...(comment === undefined ? {} : { comment }),
      ...(isHidden ? { hidden: true } : {}),
    }),
  );
  edit(path, (text) => growPrintArea(changeNames(text, names.gone, [...names.added, ...own]), lastRows));
  const copy = zipSync(Object.fromEntries(parts), { level: 6 });
  const came = await readXlsx(copy);
  compare(after, came);
  for (const sheet of safeguarded) {
    const now = came.sheets.find(({ name }) => name === sheet.name)!;
    if (isOtherwise(sheet, now))
      throw failed(`the safeguards of "${sheet.name}" did not come out as they should`);
  }
  return copy;
}

/** Whether input rules or protection differ. */
function isOtherwise(before: BookSheet, after: BookSheet): boolean {
  const isOpened = before.isProtected !== after.isProtected;
  const rules = ({ validations }: BookSheet) => validations.map(ruleText).sort().join('\n');
  return isOpened || rules(before) !== rules(after);
}

function ruleText({ range, rule, prompt, refusal }: Validation): string {
  const own = Object.entries(rule).filter(([, value]) => value !== undefined && value !== false);
  return JSON.stringify([
    range,
    own.sort(([a], [b]) => (a < b ? -1 : 1)),
    prompt.title,
    prompt.message,
    refusal.title,
    refusal.message,
    refusal.style,
  ]);
}

/** A workbook that has nothing of a sheet but its input rules and its protection. */
function bare({ name, validations, isProtected }: BookSheet): Book {
  return { sheets: [{ ...EMPTY_SHEET, name, validations, isProtected }], names: [], active: name };
}

/** Cells whose contents differ; what a function fills beside its own cell is stored like any value. */
function changedCells(before: BookSheet, after: BookSheet): Map<string, BookCell> {
  const found = new Map<string, BookCell>();
  for (const at of new Set([...Object.keys(before.cells), ...Object.keys(after.cells)])) {
    const [was, now] = [before.cells[at], after.cells[at]];
    if (was?.formula === now?.formula && isSame(was?.value ?? null, now?.value ?? null)) continue;
    found.set(at, now ?? { value: null });
  }
  return found;
}

/** Cells whose number format or lock differs, and those that were not there. */
function changedLooks(before: BookSheet, after: BookSheet): Map<string, Safeguard> {
  const found = new Map<string, Safeguard>();
  for (const [at, { style }] of Object.entries(after.cells)) {
    const [was, now] = [safeguardOf(before.cells[at]?.style), safeguardOf(style)];
    const isThere = Object.hasOwn(before.cells, at);
    if (!isThere || was.format !== now.format || was.isLocked !== now.isLocked) found.set(at, now);
  }
  return found;
}

function changedNames(before: Book, after: Book, placeOf: (sheet: string) => number) {
  const gone: PlacedName[] = [];
  const added: PlacedName[] = [];
  const look = (was: readonly DefinedName[], now: readonly DefinedName[], sheet?: number) => {
    const placed = (name: DefinedName): PlacedName => (sheet === undefined ? name : { ...name, sheet });
    const [old, next] = [was, now].map((list) => new Map(list.map((name) => [name.name, name.refersTo])));
    gone.push(...was.filter(({ name }) => !next!.has(name)).map(placed));
    added.push(...now.filter(({ name, refersTo }) => old!.get(name) !== refersTo).map(placed));
  };
  look(before.names, after.names);
  before.sheets.forEach((sheet, i) => {
    look(sheet.names, after.sheets[i]!.names, placeOf(sheet.name));
  });
  return { gone, added };
}

/** The file must say what the Book does. */
function compare(wanted: Book, came: Book): void {
  if (came.sheets.length !== wanted.sheets.length) throw failed('its sheets did not come out as they should');
  wanted.sheets.forEach((sheet, i) => {
    const now = came.sheets[i]!;
    if (now.name !== sheet.name) throw failed(`the sheet "${sheet.name}" is not where it should be`);
    for (const [at, cell] of Object.entries(sheet.cells)) {
      const where = `${at} of "${sheet.name}"`;
      if (!isSame(cell.value, now.cells[at]?.value ?? null)) throw failed(`${where} has another value`);
      if (cell.formula !== now.cells[at]?.formula) throw failed(`${where} has another formula`);
      const [wish, look] = [safeguardOf(cell.style), safeguardOf(now.cells[at]?.style)];
      if (wish.format !== look.format) throw failed(`${where} has another number format`);
      if (wish.isLocked !== look.isLocked) throw failed(`${where} is not locked as it should be`);
    }
    sameNames(sheet.names, now.names, `of "${sheet.name}"`);
  });
  sameNames(wanted.names, came.names, 'of the workbook');
}

function sameNames(wanted: readonly DefinedName[], came: readonly DefinedName[], whose: string): void {
  const now = new Map(came.map(({ name, refersTo }) => [name, refersTo]));
  for (const { name, refersTo } of wanted) {
    if (now.get(name) !== refersTo) throw failed(`the name ${name} ${whose} did not come out as it should`);
  }
  if (came.length !== wanted.length) throw failed(`the names ${whose} are not the ones that should be there`);
}

function failed(why: string): XlsxError {
  return unwritable(
    `The file could not be changed in place: ${why}.`,
    'Save the workbook anew in a spreadsheet program and try again; if it stays, please report it.',
  );
}
