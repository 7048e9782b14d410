import type { Book } from '../sheets/book';
import { KINDS } from './kinds/all';
import { asBuilt } from './older/asbuilt';
import { renewedSheets } from './older/renew';
import { builtToday, type Expected, isOlder } from './today';
import type { SheetView } from './view';

/**
 * The plan a sheet was built from, found again from its hidden mark, its names and its cells. Input values in it
 * are those of some sheet of the same layout and are not to be compared. Of an earlier layout it is what can be said
 * of it: see `asBuilt`.
 *
 * @param book the workbook; without it sheets that are linked to others cannot be judged
 */
export function expectedOf(view: SheetView, book?: Book): Expected {
  const { identity } = view;
  if (!identity) return { known: false, why: 'Its hidden mark cannot be read.' };
  const { kind, version } = identity;
  const audit = KINDS[kind];
  if (!audit) return { known: false, why: `Sheets of the kind “${kind}” are not known here.` };
  if (version > audit.version) {
    return {
      known: false,
      why: `Its layout has version ${version}, newer than this program (which has ${audit.version}).`,
    };
  }
  if (!isOlder(view)) return builtToday(view, book);
  const renewed = renewedSheets(book ?? { sheets: [view.sheet], names: [] }).get(view.sheet.name);
  if (renewed?.older === view) return { known: true, plan: asBuilt(renewed), audit, isOlder: true };
  const today = builtToday(view, book);
  return today.known ? { known: false, why: 'It cannot be built anew from what stands on it.' } : today;
}
