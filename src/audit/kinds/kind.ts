import type { Book } from '../../sheets/book';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import type { SheetView } from '../view';

/** What the audit knows of one kind of sheet. */
export interface KindAudit {
  /** Version of the layout that is known. */
  readonly version: number;
  /**
   * The plan a sheet of this kind was built from, found again from its names, its fixed words and its input cells;
   * or why that cannot be said. Input values in it are those of some sheet of the same layout.
   *
   * @param book the workbook, for kinds that are linked to other sheets
   */
  plan(view: SheetView, book: Book | undefined): Plan | Unknown;
  results(view: SheetView, plan: Plan): readonly ResultCell[];
  /** Where a typed figure is from, where this kind can say more of it than any sheet can. */
  origin?(view: SheetView, plan: Plan, at: string, book: Book | undefined): Origin | undefined;
  /** Sheets that are named in words as where figures are from; some may not be there. */
  named?(view: SheetView): readonly string[];
  /** Areas whose lines are each about a thing of its own: a trace stays in the line. */
  lines?(plan: Plan): readonly string[];
  /**
   * What only this kind can be asked.
   * @param asItStands where sheets of earlier layouts are looked at as they would be built today: the one of this name itself
   */
  findings?(
    view: SheetView,
    plan: Plan,
    book: Book | undefined,
    asItStands?: (sheet: string) => SheetView | undefined,
  ): readonly Finding[];
  /** What of a sheet of an earlier layout today's layout says otherwise. */
  former?(older: SheetView): readonly Finding[];
}

/** Where a typed figure is from. */
export interface Origin {
  /** `stated in the bid “Offer one”; by ISO/IEC 21118`. */
  readonly source: string;
  /** What it is; otherwise the input rule of its cell says so. */
  readonly definition?: string;
  /** The cell of another sheet it was taken from, where that is in the workbook. */
  readonly from?: { readonly sheet: string; readonly at: string };
  /** That the figure is no longer the one that stands there. */
  readonly finding?: Finding;
}

export interface Unknown {
  readonly why: string;
}

/** A cell that holds a result; where it was computed twice, the plain formula beside it. */
export interface ResultCell {
  /** `WhiteLightOutput`; of a table with the line, `OfferCost[2]`. */
  readonly name: string;
  readonly label: string;
  readonly unit: string;
  readonly at: string;
  readonly twinAt?: string;
}
