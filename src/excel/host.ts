import type { Book, CellValue, DefinedName, TableFilter, Validation } from '../sheets/book';
import type { LogLine } from '../sheets/log';
import type { ByName, CellName, NameOf } from '../sheets/names/all';
import type { Identity, Plan, SheetKind } from '../sheets/plan';

/** Which sheets to read, and where on each validation is expected: the API cannot list validations. */
export interface BookRequest {
  readonly sheets?: readonly string[];
  readonly validations?: Readonly<Record<string, readonly string[]>>;
  /** How cells are drawn, and which rows and columns are hidden: for seals. */
  readonly isSeen?: true;
}

/**
 * What the pane asks of a spreadsheet program, in our own verbs. The pane knows nothing else of it; in tests
 * a small object stands in, in Excel and in the workbench `ExcelHost` does it through Office.js.
 * Every call rejects with a `HostError` that a person can read.
 */
export interface Host {
  facts(): HostFacts;
  /**
   * Builds a plan on a new sheet; a taken name gets a number; no existing sheet is touched. A long table goes out
   * in parts: `course` hears how far it is and may stop it, and then nothing is left of the sheet.
   */
  build(plan: Plan, course?: Course): Promise<Built>;
  /** Our sheets in this workbook, in tab order, and which sheet is in front. */
  survey(): Promise<Survey>;
  /** Values (and texts) of every sheet-scoped name of one of our sheets, and where each stands. */
  read(sheet: string): Promise<SheetReading>;
  /**
   * What stands behind some names of every sheet of ours, by kind, in tab order: four round trips, however many
   * sheets. Names that a sheet has not are left out, and so are sheets of other kinds.
   */
  readSome(wanted: WantedNames): Promise<readonly SheetReading[]>;
  /**
   * Writes a sheet of ours anew from a plan of the same kind and id: everything on it is replaced. For sheets that
   * hold nothing of a person's own. A sealed sheet is refused.
   */
  rewrite(sheet: string, plan: Plan): Promise<void>;
  /** Writes into the input cells behind a name, row by row; `null` leaves a cell as it is. */
  write(sheet: string, name: CellName, values: readonly (readonly CellValue[])[]): Promise<void>;
  /**
   * Puts values into single cells behind names, `null` to empty one, and says what they held before: one round
   * trip, and no other cell is touched. If one of the names is missing, nothing is written.
   */
  writeCells(sheet: SheetPlace | string, cells: readonly CellWrite[]): Promise<readonly CellValue[]>;
  /**
   * What stands behind some names of a sheet, values only: for sheets too long to be read whole. Names that the
   * sheet has not are left out.
   */
  readNamed(sheet: string, names: readonly CellName[]): Promise<CellsByName>;
  /**
   * Writes rectangles of cells within named ranges; `null` leaves a cell as it is. If one of the names is missing,
   * nothing is written. Long ones go out in parts; stopped between two, what was written stays.
   */
  writeBlocks(sheet: string, blocks: readonly CellBlock[], course?: Course): Promise<void>;
  /** What single cells hold. */
  readCells(sheet: SheetPlace | string, places: readonly CellPlace[]): Promise<readonly CellValue[]>;
  /** Puts the selection on a name or an address of a sheet. */
  select(sheet: string, target: string): Promise<void>;
  /** Enters every formula of our sheet again: the cure for `#NAME?` left from before the add-in loaded. */
  refresh(sheet: string): Promise<{ readonly formulas: number }>;
  /**
   * Enters the formulas in the first column of each of some names again; names that the sheet has not are left out.
   * The same cure for a sheet too long to be entered whole.
   */
  enterAgain(sheet: string, names: readonly CellName[]): Promise<{ readonly formulas: number }>;
  /** Waits, at most so many ms, until the program has calculated everything; rejects as `busy` where it has not. */
  settled(limit: number): Promise<void>;
  /** The workbook as plain data, for trace, check and seal. */
  book(request?: BookRequest): Promise<Book>;
  /** The sheet in front and the cell the cursor is in. */
  selection(): Promise<Selection>;
  /** Takes names away and sets names, of sheets or of the workbook; nothing else is changed. */
  editNames(edits: readonly NameEdits[]): Promise<void>;
  /**
   * Puts planned contents, number formats, locks and input rules back on one of our sheets, in one go, and
   * leaves the sheet protected. With nothing to put back it only protects.
   */
  restore(sheet: string, restoration: Restoration): Promise<void>;
  /**
   * Adds lines to the workbook's log, below the last one whoever wrote it, and makes the log where there is none.
   * The sheet in front stays in front.
   * @param newId for a log that must be made, lower-case letters and digits
   */
  appendLog(lines: readonly LogLine[], newId: string): Promise<void>;
  /** The workbook as the program would save it now: the bytes of an .xlsx file. */
  file(): Promise<Uint8Array>;
  /** Opens the bytes of an .xlsx file as a new workbook beside this one. */
  openWorkbook(bytes: Uint8Array): Promise<void>;
  /** Whether the workbook opens the pane by itself: undefined while nobody has said so, `never` where no program does. */
  opensPane(): Promise<boolean | undefined | 'never'>;
  setOpensPane(opens: boolean): Promise<void>;
  /** What the program itself says a cell is computed from; undefined where it cannot say. */
  precedents(sheet: string, cell: string): Promise<readonly CellArea[] | undefined>;
  /**
   * Calls back soon after something in the workbook changed, with the sheets whose cells did; without them where it may
   * be any, or the sheets themselves.
   */
  watch(changed: (sheets?: readonly string[]) => void): Promise<() => void>;
}

export interface Built {
  readonly sheet: string;
  /** What the program would not take and the sheet does well without. */
  readonly lacking?: readonly Lacking[];
}

export interface Lacking {
  /** `view`: that the sheet comes to the front, and that its headings stay. */
  readonly part: 'view' | 'page' | 'charts' | 'notes' | 'protection';
  /** The host's own words, for a report. */
  readonly detail: string;
}

/** Something that takes a while, and can be stopped between its parts. */
export interface Course {
  /** From 0 to 1. */
  progress?(done: number): void;
  readonly signal?: AbortSignal;
}

/**
 * A sheet by the id in its mark, wherever its tab is and whatever it is called by now; the tab's name is for words,
 * and tells copies that bear one id apart. `missing` if no sheet of that name bears the id any more. A bare name, where
 * a call takes one, trusts the tab.
 */
export interface SheetPlace {
  readonly sheet: string;
  readonly id: string;
}

/** One cell of a named range; row and column count from 0 within it. */
export interface CellPlace {
  readonly name: CellName;
  readonly row: number;
  readonly column: number;
}
export interface CellWrite extends CellPlace {
  readonly value: CellValue;
}
/** A rectangle of cells; its place is that of its first cell. No part of more than a few thousand cells. */
export interface CellBlock extends CellPlace {
  readonly values: readonly (readonly CellValue[])[];
}
/** Values by name, with the address of each. */
export type CellsByName = ByName<Omit<NamedValues, 'texts'>>;

/** A cell or a range of some sheet, without `$`. */
export interface CellArea {
  readonly sheet: string;
  readonly address: string;
}

export interface Selection {
  readonly sheet: string;
  /** Address without `$`: `B32`. */
  readonly cell: string;
}

/** Names to take away and to set; without `sheet` those of the workbook. */
export interface NameEdits {
  readonly sheet?: string;
  /** What these names must hold when it is written, nothing where `refersTo` is left out: else somebody else was first. */
  readonly expects?: readonly { readonly name: string; readonly refersTo?: string }[];
  readonly remove: readonly string[];
  readonly set: readonly DefinedName[];
}

export interface Restoration {
  readonly cells?: readonly RestoredCell[];
  readonly validations?: readonly Validation[];
  /** What its protection is to leave to the arrows of a table; otherwise that stays as it is. */
  readonly filter?: TableFilter;
}
/** What is left out stays as it is; `value: null` empties the cell. */
export interface RestoredCell {
  readonly at: string;
  readonly formula?: string;
  readonly value?: CellValue;
  readonly format?: string;
  readonly isLocked?: boolean;
}

export interface HostFacts {
  readonly platform: string;
  /** True where the pane runs beside the embedded engine and not in Excel. */
  readonly isWorkbench: boolean;
  /** Address of the workbook as it was when the pane opened; empty where it was never saved or none is told. */
  readonly workbook: string;
  readonly decimalComma: boolean;
}

export interface Survey {
  readonly active: string;
  readonly sheets: readonly KnownSheet[];
}
export interface KnownSheet extends Identity {
  readonly sheet: string;
  /** Whether a seal stands on the sheet; a check tells whether it holds. */
  readonly isSealed?: true;
}
/** Names to read, by kind of sheet. */
export type WantedNames = {
  readonly [Kind in SheetKind]?: readonly NameOf<Kind>[];
};

export interface SheetReading extends KnownSheet {
  readonly values: ByName<NamedValues>;
}
export interface NamedValues {
  /** Address on the sheet, without `$` and sheet name. */
  readonly address: string;
  readonly values: readonly (readonly CellValue[])[];
  /** As the cells show it, number format applied. */
  readonly texts: readonly (readonly string[])[];
}

export type HostTrouble =
  | 'editing'
  | 'protected'
  | 'missing'
  | 'taken'
  | 'busy'
  | 'refused'
  | 'unavailable'
  | 'stopped'
  | 'unknown';

/** A refusal of the host: what happened in plain words, and what to do about it. */
export class HostError extends Error {
  constructor(
    readonly trouble: HostTrouble,
    message: string,
    readonly remedy: string,
    /** The host's own code and statement, for a bug report. */
    readonly detail = '',
  ) {
    super(message);
    this.name = 'HostError';
  }
}
