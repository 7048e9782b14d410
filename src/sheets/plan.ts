import type { Alert, Align, CellNote, Chart, ColourScale, PrintSetup, TableFilter, Validation } from './book';
import type { CellName } from './names/all';

/**
 * A sheet before it exists: plain data that every writer turns into the same sheet. A plan knows no sheet
 * name; formulas refer to the plan's own names and to plain addresses on the same sheet.
 */
export interface Plan {
  readonly kind: SheetKind;
  /** Version of this sheet kind's layout; kept with the sheet so that old sheets stay known. */
  readonly version: number;
  /** Unique to this sheet; made by the caller so that plans stay pure. */
  readonly id: string;
  /** Sheet name to ask for; a taken name gets a number. */
  readonly title: string;
  readonly cells: Readonly<Record<string, PlanCell>>;
  readonly names: readonly PlanName[];
  /**
   * What cells are called that bear no name on the sheet: workings of budgets and plain formulas. Formulas have their
   * addresses; a trace has their words from here.
   */
  readonly inner?: readonly PlanName[];
  readonly validations: readonly Validation[];
  readonly scales: readonly ColourScale[];
  readonly alerts: readonly Alert[];
  readonly notes: readonly CellNote[];
  readonly merges: readonly string[];
  readonly columns: Readonly<Record<string, number>>;
  readonly rows: Readonly<Record<string, number>>;
  readonly print: PrintSetup;
  /** All cells of the plan, where that is more than what is printed. */
  readonly area?: string;
  /**
   * One table in blocks, one below another. The rows of a block repeat the formulas and looks of its first row, so that
   * a writer may copy it down; a column whose second row has no formula has one in its first row only.
   */
  readonly fills?: readonly string[];
  readonly charts?: readonly Chart[];
  readonly freeze?: { readonly rows: number; readonly columns: number };
  readonly filter?: TableFilter;
  /** Selected when the sheet has been built: the first thing to fill in. */
  readonly start: string;
}

/** Every kind of sheet we build; kept in workbooks, so a word once used stays. */
export const SHEET_KINDS = [
  'run',
  'comparison',
  'spot',
  'need',
  'offers',
  'batch',
  'acceptance',
  'certificate',
  'ageing',
  'metercheck',
  'overview',
  'findings',
  'trace',
  'log',
] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];

/** Kinds that write down what was so at some time: texts without a formula, with nothing to compute or to check. */
export const RECORD_KINDS: readonly SheetKind[] = ['findings', 'trace', 'log'];

export interface PlanCell {
  readonly role: Role;
  readonly value?: string | number | boolean;
  /** With leading "=". A cell has a value or a formula, not both. */
  readonly formula?: string;
  readonly format?: string;
  /** Instead of its role's: in a table, see `standOf`. */
  readonly align?: Align;
  /** Not locked although nobody types here: in lines that may be sorted. */
  readonly isOpen?: true;
}

/** What a cell is for; its look and its lock follow from it (`style.ts`). */
export type Role =
  | 'title'
  | 'heading'
  /** Head of a column: as a heading, in as many lines as its width needs. */
  | 'head'
  | 'label'
  | 'unit'
  | 'input'
  | 'choice'
  | 'reading'
  | 'factor'
  | 'derived'
  | 'result'
  /** A result once more at the top of its sheet, as it is reported: the first thing to be read. */
  | 'answer'
  /** A result in a long table. */
  | 'figure'
  /** What a `LIGHT` function gives beside a plain formula: the check on that, which alone counts without the add-in. */
  | 'called'
  /** What a plain formula gives beside a function: the result to be read. */
  | 'twin'
  | 'check'
  | 'note'
  | 'words'
  | 'caution'
  /** Written by the tool when something was done; locked, and not part of the layout. */
  | 'stamp'
  /** A line of a report or a log: plain text that wraps. */
  | 'line';

/** What cells that tell a result are for. */
export const RESULT_ROLES: ReadonlySet<Role> = new Set(['result', 'called', 'twin']);

/** A sheet-scoped name for a cell or a range of the plan. */
export interface PlanName {
  readonly name: CellName;
  readonly range: string;
  readonly comment: string;
}

/** The hidden sheet-scoped name that tells what a sheet is: `="run;1;k3f9a2"`. It is copied with the sheet. */
export const IDENTITY = 'LightSheet';

export interface Identity {
  readonly kind: SheetKind;
  readonly version: number;
  readonly id: string;
}

/** Identity → the name's constant, and back. Unknown text gives undefined: the sheet is not ours. */
export function identityFormula({ kind, version, id }: Identity): string {
  return `="${kind};${version};${id}"`;
}
export function parseIdentity(refersTo: string): Identity | undefined {
  const match = /^="?([a-z]+);(\d+);([a-z0-9]+)"?$/.exec(refersTo.trim());
  const kind = SHEET_KINDS.find((known) => known === match?.[1]);
  return match && kind ? { kind, version: Number(match[2]), id: match[3]! } : undefined;
}
