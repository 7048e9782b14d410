import { addressOf, cellsOf, rectOf } from '../sheets/address';
import type { Book, BookCell, BookSheet, CellValue, DefinedName } from '../sheets/book';
import type { CellName } from '../sheets/names/all';
import { besidesOf } from '../sheets/names/beside';
import { IDENTITY, type Identity, parseIdentity } from '../sheets/plan';
import { builtBy } from '../sheets/program';
import type { Scope } from './formula/evaluate';
import { once } from './once';

/** More cells than any range of ours, a batch's readings being the largest; a larger one is not looked at. */
export const AREA_MAX = 200_000;
/** Areas up to this size are remembered. */
const AREA_KEPT = 5_000;
const AREAS_KEPT = 400;

const sheetsByName = new WeakMap<Book, Map<string, BookSheet>>();
const views = new WeakMap<BookSheet, SheetView>();

/** One sheet as the auditor sees it: what it says it is, and where its names point. */
export interface SheetView {
  readonly sheet: BookSheet;
  readonly identity: Identity | undefined;
  /** Version of the program that built it, where its mark says so. */
  readonly builtBy: string | undefined;
  /**
   * Sheet-scoped names that point into this very sheet, by name in small letters, and what stands beside them and has
   * none.
   */
  readonly places: ReadonlyMap<string, Place>;
}
export interface Place {
  readonly name: string;
  /** `B12` or `B12:D14`. */
  readonly address: string;
  readonly comment: string;
  /** Whether the sheet has no such name: formulas cannot use it. */
  readonly isNameless?: true;
}

/** Looks at one sheet of a book, whatever it is called by now. A book is never changed, so a look is kept. */
export function viewOf(sheet: BookSheet): SheetView {
  const known = views.get(sheet);
  if (known) return known;
  const view = newView(sheet);
  views.set(sheet, view);
  return view;
}

function newView(sheet: BookSheet): SheetView {
  const mark = sheet.names.find(({ name }) => name === IDENTITY);
  const places = new Map<string, Place>();
  for (const defined of sheet.names) {
    const address = ownAddress(defined, sheet.name);
    if (address === undefined) continue;
    places.set(defined.name.toLowerCase(), { name: defined.name, address, comment: defined.comment ?? '' });
  }
  const identity = mark && parseIdentity(mark.refersTo);
  if (identity) {
    const addresses = new Map([...places.values()].map(({ name, address }) => [name, address]));
    for (const [name, address] of besidesOf(identity, addresses))
      places.set(name.toLowerCase(), { name, address, comment: '', isNameless: true });
  }
  return { sheet, identity, builtBy: builtBy(mark?.comment), places };
}

const POINTS_AT =
  /^=(?:'((?:[^']|'')*)'|([^'!]+))!(\$?[A-Z]{1,3}\$?[1-9][0-9]{0,6}(?::\$?[A-Z]{1,3}\$?[1-9][0-9]{0,6})?)$/i;

/** Where a name points, if it points to one area of a sheet: `='Run 1'!$B$2:$D$4` → that sheet and `B2:D4`. */
export function pointsAt(refersTo: string): { sheet: string; address: string } | undefined {
  const match = POINTS_AT.exec(refersTo);
  if (!match) return undefined;
  return {
    sheet: match[1] === undefined ? match[2]! : match[1].replace(/''/g, "'"),
    address: addressOf(rectOf(match[3]!.toUpperCase())),
  };
}

/** The area a name covers on its own sheet; undefined if it points elsewhere, nowhere, or is a constant. */
export function ownAddress({ refersTo }: DefinedName, sheet: string): string | undefined {
  const found = pointsAt(refersTo);
  return found && found.sheet.toLowerCase() === sheet.toLowerCase() ? found.address : undefined;
}

export function cellAt({ sheet }: SheetView, at: string): BookCell | undefined {
  return Object.hasOwn(sheet.cells, at) ? sheet.cells[at] : undefined;
}

export function valueAt(view: SheetView, at: string): CellValue {
  return cellAt(view, at)?.value ?? null;
}

/** Cells of an area, row by row; undefined if the area is larger than any of ours. */
export function gridAt(
  view: SheetView,
  address: string,
  look: (at: string) => CellValue = (at) => valueAt(view, at),
): CellValue[][] | undefined {
  const { rows, columns } = rectOf(address);
  if (rows * columns > AREA_MAX) return undefined;
  const area = rows * columns > AREA_KEPT ? rowsOf(address) : areaOf(address);
  return area.map((row) => row.map(look));
}

/** Addresses of an area's cells, row by row; the same areas are asked for on every sheet of a kind. */
const areaOf = once(rowsOf, AREAS_KEPT);

function rowsOf(address: string): string[][] {
  const { rows, columns } = rectOf(address);
  const flat = cellsOf(address);
  return Array.from({ length: rows }, (_, r) => flat.slice(r * columns, (r + 1) * columns));
}

/** Values behind a name, row by row; empty if the sheet has no such name. */
export function gridOf(view: SheetView, name: CellName): CellValue[][] {
  const place = view.places.get(name.toLowerCase());
  return (place && gridAt(view, place.address)) ?? [];
}

/** Whether a reference with this sheet name, or with none, stays on the sheet. */
export function isOwnSheet({ sheet }: SheetView, name: string | undefined): boolean {
  return name === undefined || name.toLowerCase() === sheet.name.toLowerCase();
}

/** The value of a cell of some sheet; undefined if it cannot be said. */
export type Look = (view: SheetView, at: string) => CellValue | undefined;

/**
 * What formulas of a sheet see: its own names and cells, and those of the other sheets where the workbook is at
 * hand. Cells have their values as they stand unless told otherwise.
 */
export function scopeOf(view: SheetView, book?: Book, look: Look = valueAt): Scope {
  const on = (sheet: string | undefined) => (isOwnSheet(view, sheet) ? view : book && sheetOf(book, sheet!));
  const grid = (from: SheetView, address: string) => {
    let isKnown = true;
    const found = gridAt(from, address, (at) => {
      const value = look(from, at);
      if (value === undefined) isKnown = false;
      return value ?? null;
    });
    return isKnown ? found : undefined;
  };
  const named = (name: string, from: SheetView | undefined) => from && placeNamed(from, name);
  return {
    range: (address, sheet) => {
      const from = on(sheet);
      return from && grid(from, address);
    },
    name: (name, sheet) => {
      const from = on(sheet);
      const place = named(name, from);
      return from && place && grid(from, place.address);
    },
    address: (name, sheet) => named(name, on(sheet))?.address,
  };
}

/** What a name in a formula of the sheet means. */
export function placeNamed({ places }: SheetView, name: string): Place | undefined {
  const place = places.get(name.toLowerCase());
  return place?.isNameless ? undefined : place;
}

/** A sheet of a book by its name, without regard to case, as a reference finds it. */
export function sheetOf(book: Book, name: string): SheetView | undefined {
  let known = sheetsByName.get(book);
  if (!known) {
    known = new Map(book.sheets.map((sheet) => [sheet.name.toLowerCase(), sheet]));
    sheetsByName.set(book, known);
  }
  const sheet = known.get(name.toLowerCase());
  return sheet && viewOf(sheet);
}

/** Our sheets of a book, in tab order. */
export function ourSheets(book: Book): SheetView[] {
  return book.sheets
    .filter(({ names }) => names.some(({ name }) => name === IDENTITY))
    .map((sheet) => viewOf(sheet));
}
