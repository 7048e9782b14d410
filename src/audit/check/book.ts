import type { Book } from '../../sheets/book';
import { broken } from '../formula/normal';
import { deletedSeal, lostSeals } from '../seal/lost';
import { setupOf } from '../setupof';
import { ourSheets, type SheetView } from '../view';
import type { Finding } from './finding';

/** What shows only when sheets are seen beside each other, and the workbook's own names. */
export function checkBook(book: Book, views: readonly SheetView[], isPart = false): Finding[] {
  return [
    ...deletedSeals(book, views, isPart),
    ...(isPart ? [] : seals(book)),
    ...copies(views),
    ...meters(views),
    ...brokenNames(book),
  ];
}

/**
 * A sheet without the seal that the register has of it. Nothing on the sheet tells, so it is asked of all of them, the
 * workbook speaking for those that are not looked at.
 */
function deletedSeals(book: Book, views: readonly SheetView[], isPart: boolean): Finding[] {
  const chosen = new Set(views.map(({ sheet }) => sheet.name));
  return ourSheets(book).flatMap((view): Finding[] => {
    const { name } = view.sheet;
    const why = deletedSeal(book, view);
    if (why === undefined || (isPart && !chosen.has(name))) return [];
    return [
      {
        sheet: chosen.has(name) ? name : '',
        kind: 'seal',
        severity: 'error',
        message: `The seal of “${name}” is gone. ${why}`,
        expected: 'the seal that the workbook remembers, or the sheet opened again on the record',
        found: 'no seal',
      },
    ];
  });
}

/** A seal without its sheet. The workbook is what is wrong, whichever sheets are looked at. */
function seals(book: Book): Finding[] {
  return lostSeals(book).map((message) => ({
    sheet: '',
    kind: 'seal',
    severity: 'error',
    message,
    expected: 'every seal that was made, on its one sheet',
    found: 'a seal without its sheet, or seals that nobody remembers',
  }));
}

function copies(views: readonly SheetView[]): Finding[] {
  const first = new Map<string, string>();
  return views.flatMap(({ sheet, identity }): Finding[] => {
    if (!identity) return [];
    const original = first.get(identity.id);
    if (original === undefined) {
      first.set(identity.id, sheet.name);
      return [];
    }
    return [
      {
        sheet: sheet.name,
        kind: 'version',
        severity: 'note',
        message: `The sheet bears the same mark as “${original}”: one was copied from the other.`,
        expected: 'a mark of its own',
        found: identity.id,
      },
    ];
  });
}

/** One meter shows one unit; a second unit on another sheet is more likely a slip than a switch. */
function meters(views: readonly SheetView[]): Finding[] {
  const first = new Map<string, { unit: string; sheet: string }>();
  return views.flatMap((view): Finding[] => {
    const at = view.places.get('meterunit')?.address;
    // A certificate repeats the meter's name, and has no readings in its unit.
    if (at === undefined) return [];
    const { name, unit } = setupOf(view).meter;
    const before = first.get(name);
    if (name === '') return [];
    if (!before) first.set(name, { unit, sheet: view.sheet.name });
    if (!before || before.unit === unit) return [];
    return [
      {
        sheet: view.sheet.name,
        at,
        kind: 'units',
        severity: 'warning',
        message: `The meter “${name}” reads in ${unit} here and in ${before.unit} on “${before.sheet}”.`,
        expected: before.unit,
        found: unit,
        remedy: 'read-again',
      },
    ];
  });
}

function brokenNames({ names }: Book): Finding[] {
  return names.flatMap(({ name, refersTo }): Finding[] => {
    const form = broken(refersTo);
    if (!form) return [];
    return [
      {
        sheet: '',
        kind: 'name',
        severity: 'warning',
        message: `The workbook’s name ${name} was written as ${form.form}, as if it were in another workbook.`,
        expected: form.meant,
        found: refersTo,
        remedy: 'restore-name',
      },
    ];
  });
}
