import type { Book } from '../../sheets/book';
import { ourSheets, type SheetView, viewOf } from '../view';
import { BOOK } from './names';
import { readHistory, readRegister } from './register';
import { isSealed } from './seal';

/**
 * What the workbook's register of seals tells and no sheet can: a sealed sheet that was deleted, copied over another,
 * or has lost its mark leaves nothing behind that could be compared. Whole sentences; none where every seal that the
 * register knows has its one sheet. Whether that sheet still bears the seal is for `deletedSeal` to say.
 */
export function lostSeals(book: Book): string[] {
  const register = readRegister(book.names);
  if (!register) return ['The workbook’s register of seals is damaged: a sealed sheet may be gone.'];
  if (isRegisterGone(book))
    return [
      'The workbook bears the mark that it got with its first seal, and its register of seals is gone: a seal that was deleted would not be missed.',
    ];
  const bearers = new Map<string, string[]>();
  for (const sheet of book.sheets) {
    const id = viewOf(sheet).identity?.id;
    if (id !== undefined) bearers.set(id, [...(bearers.get(id) ?? []), sheet.name]);
  }
  return [...register.values()].flatMap(({ id, sequence, hash }): string[] => {
    if (hash === '') return [];
    const sheets = bearers.get(id) ?? [];
    if (sheets.length === 1) return [];
    if (sheets.length > 1)
      return [
        `Seal ${sequence} of the sheet with the mark ${id} could be that of ${sheets.map((name) => `“${name}”`).join(' or ')}: each bears the mark.`,
      ];
    return [
      `The workbook remembers seal ${sequence} of a sheet with the mark ${id}, and no sheet bears it: a sealed sheet was deleted or replaced.`,
    ];
  });
}

/** Mark and register are written together, and neither is ever taken away: opening a sheet keeps its line. */
function isRegisterGone({ names }: Book): boolean {
  return (
    names.some(({ name }) => name.toLowerCase() === BOOK.toLowerCase()) && readRegister(names)?.size === 0
  );
}

/**
 * Why a sheet without a seal is not one that was never sealed, as a sentence; undefined where it is, or bears a seal.
 * The seal was taken off by hand, or the sheet was replaced by another that was given its mark. A copy beside the sheet
 * that bears the seal is none of the two.
 */
export function deletedSeal(book: Book, view: SheetView): string | undefined {
  const id = view.identity?.id;
  if (id === undefined || isSealed(view)) return undefined;
  const hash = readRegister(book.names)?.get(id)?.hash ?? '';
  if (hash === '') return undefined;
  const isElsewhere = book.sheets.map(viewOf).some((other) => other.identity?.id === id && isSealed(other));
  if (isElsewhere) return undefined;
  const last = readHistory(view.sheet.names).at(-1);
  return last?.what === 'reopened' && last.hash === hash
    ? 'The sheet says that it was opened again, and the workbook’s register of seals does not know of it: opening it broke off, or its seal was deleted.'
    : 'The workbook remembers a seal of this sheet that is no longer there: it was deleted, not reopened.';
}

/** The sheets of ours that bear a seal, and those whose seal was deleted: a copy must not pass the latter off as never sealed. */
export function sheetsToVerify(book: Book): SheetView[] {
  return ourSheets(book).filter((view) => isSealed(view) || deletedSeal(book, view) !== undefined);
}
