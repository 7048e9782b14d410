import type { Book, BookCell, BookSheet } from '../../sheets/book';
import type { Plan, SheetKind } from '../../sheets/plan';
import { realize } from '../../sheets/realize';
import { isTyped } from '../check/contents';
import { calculateBook } from '../formula/calculate';
import { laidOut } from '../laidout';
import { SEAL_NAMES } from '../seal/names';
import { builtToday, isOlder } from '../today';
import { cellAt, ourSheets, type SheetView, sheetOf, viewOf } from '../view';
import { type Moved, retarget } from './retarget';

/** A sheet of an earlier layout beside what today's program builds from what was typed on it. */
export interface Renewed {
  readonly older: SheetView;
  /** The same sheet as it would be built today, with what was typed, calculated anew. */
  readonly anew: SheetView;
  /** The workbook with all such sheets as they would be built today. */
  readonly book: Book;
  /** Where a cell of a sheet in it stands in the workbook as it is. */
  readonly before: Moved;
  /** The older sheet by its own formulas, calculated anew; only made when it is asked for. */
  readonly own: () => SheetView;
  readonly plan: Plan;
  /** Where on the older sheet a cell of the new one stands; cells without a name that both have are missing. */
  readonly places: ReadonlyMap<string, string>;
}

/** Sheets come after those that they are linked to. */
const ORDER: readonly SheetKind[] = [
  'run',
  'need',
  'batch',
  'spot',
  'metercheck',
  'offers',
  'ageing',
  'acceptance',
  'comparison',
  'certificate',
  'overview',
];

const known = new WeakMap<Book, ReadonlyMap<string, Renewed>>();

/**
 * Every sheet of an earlier layout, built with today's plan from what was typed on it and calculated anew, by its
 * name; links between such sheets go from the one as it is today to the other. A sheet that cannot be built again,
 * since what it is linked to is gone, is missing. A book is never changed, so the outcome is kept.
 */
export function renewedSheets(book: Book): ReadonlyMap<string, Renewed> {
  const found = known.get(book) ?? renew(book);
  known.set(book, found);
  return found;
}

function renew(book: Book): ReadonlyMap<string, Renewed> {
  const older = ourSheets(book).filter(isOlder);
  if (older.length === 0) return new Map();
  const whens = (view: SheetView) => ORDER.indexOf(view.identity!.kind);
  const built = new Map<string, Omit<Renewed, 'anew' | 'book' | 'before' | 'own'>>();
  const moves = new Map<string, ReadonlyMap<string, string>>();
  const moved = (sheet: string, at: string) => {
    const own = moves.get(sheet.toLowerCase());
    return own ? own.get(at) : at;
  };
  let now = book;
  for (const view of older.sort((a, b) => whens(a) - whens(b))) {
    const made = rebuilt(view, now, moved);
    if (!made) continue;
    const { name } = view.sheet;
    now = { ...now, sheets: now.sheets.map((each) => (each.name === name ? made.sheet : each)) };
    built.set(name, { older: view, plan: made.plan, places: made.places });
    moves.set(name.toLowerCase(), new Map([...made.places].map(([to, from]) => [from, to])));
  }
  const calculated = calculateBook(now);
  const before: Moved = (sheet, at) => {
    const own = [...built].find(([name]) => name.toLowerCase() === sheet.toLowerCase());
    return own ? own[1].places.get(at) : at;
  };
  let asItIs: Book | undefined;
  return new Map(
    [...built].map(([name, each]) => {
      const own = () => {
        asItIs ??= calculateBook(book);
        return sheetOf(asItIs, name)!;
      };
      return [name, { ...each, anew: sheetOf(calculated, name)!, book: calculated, before, own }] as const;
    }),
  );
}

/** A sheet of today's layout with what was typed on an older one, not calculated. */
export interface Rebuilt {
  readonly sheet: BookSheet;
  readonly plan: Plan;
  readonly places: ReadonlyMap<string, string>;
}

/**
 * An older sheet from what was typed on it, before it is calculated; undefined where what it is linked to is gone.
 *
 * @param book with what it is linked to
 * @param moved where cells of other sheets stand now that links of its entries go to
 */
export function rebuilt(older: SheetView, book: Book, moved: Moved = (_, at) => at): Rebuilt | undefined {
  const first = builtToday(older, book);
  if (!first.known) return undefined;
  const typed = (plan: Plan, places: ReadonlyMap<string, string>): BookSheet => {
    const sheet = realize(plan, older.sheet.name);
    const cells = Object.fromEntries(
      Object.entries(sheet.cells).map(([at, cell]) => [
        at,
        isTyped(plan.cells[at]!) ? entry(older, places.get(at), cell, moved) : cell,
      ]),
    );
    const seal = older.sheet.names.filter(({ name }) => SEAL_NAMES.test(name));
    return { ...sheet, cells, names: [...sheet.names, ...seal] };
  };
  // What a plan takes from cells, a recorded draw as well, it finds where today's layout has them.
  const { places } = laidOut(older, first.plan);
  const second = builtToday(viewOf(recorded(first.plan, older, places, moved)), book);
  if (!second.known) return undefined;
  const { plan } = second;
  return { sheet: typed(plan, places), plan, places };
}

/** All that was typed, linked or written down on an older sheet where today's layout has it, and nothing else. */
function recorded(
  plan: Plan,
  older: SheetView,
  places: ReadonlyMap<string, string>,
  moved: Moved,
): BookSheet {
  const sheet = realize(plan, older.sheet.name);
  const cells = Object.fromEntries(
    Object.entries(sheet.cells).map(([at, cell]) => {
      const { formula: _link, ...planned } = plan.cells[at]!;
      const was = places.get(at);
      const isLink = [cell.formula, was === undefined ? undefined : cellAt(older, was)?.formula].some(
        (formula) => formula?.includes('!'),
      );
      if (isTyped(planned) || isLink) return [at, entry(older, was, { ...cell, formula: undefined }, moved)];
      const isWritten = was !== undefined && cell.formula === undefined;
      return [at, isWritten ? { ...cell, value: cellAt(older, was)?.value ?? null } : cell];
    }),
  );
  return { ...sheet, cells };
}

/** A typed cell with what was typed; a link in it goes to where its sheet has the figure today. */
function entry(older: SheetView, was: string | undefined, cell: BookCell, moved: Moved): BookCell {
  const found = was === undefined ? undefined : cellAt(older, was);
  const formula = found?.formula === undefined ? undefined : retarget(found.formula, moved);
  return { ...cell, value: found?.value ?? null, ...(formula === undefined ? {} : { formula }) };
}
