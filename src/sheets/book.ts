/**
 * A workbook as plain data. It is what a file holds, what a host holds and what an auditor reads; every
 * room that moves sheets about (excel, xlsx, workbench, audit) speaks it. It is JSON all the way down.
 */

/** What a cell shows. `null` is an empty cell; an error is an object so that the text "#N/A" stays text. */
export type CellValue = number | string | boolean | null | CellError;
export interface CellError {
  readonly error: ErrorKind;
  /** The message behind the cell's error flag, where the host keeps one. */
  readonly message?: string;
}
/** Every error a cell can show. */
export const ERROR_KINDS = [
  '#VALUE!',
  '#N/A',
  '#DIV/0!',
  '#NUM!',
  '#NULL!',
  '#NAME?',
  '#REF!',
  '#SPILL!',
  '#CALC!',
  '#BUSY!',
] as const;
export type ErrorKind = (typeof ERROR_KINDS)[number];

export function isErrorKind(text: unknown): text is ErrorKind {
  return ERROR_KINDS.some((kind) => kind === text);
}

export interface BookCell {
  readonly value: CellValue;
  /** English function names, comma separators, leading "=". Custom functions as `LIGHT.OUTPUT(…)`. */
  readonly formula?: string;
  /** For the first cell of an array result: the range it fills, e.g. `B2:D4`. */
  readonly spill?: string;
  readonly style?: Style;
}

/** Only what our sheets use. Colours are `#RRGGBB`. Unset means the host's default. */
export interface Style {
  readonly format?: string;
  readonly fill?: string;
  readonly color?: string;
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly size?: number;
  readonly align?: Align;
  readonly vertical?: 'top' | 'center' | 'bottom';
  readonly wrap?: boolean;
  readonly border?: Border;
  /** Cells are locked unless this is false, as in every spreadsheet. It matters only on a protected sheet. */
  readonly locked?: boolean;
}
export type Align = 'left' | 'center' | 'right';
export interface Border {
  readonly color: string;
  readonly weight: 'thin' | 'medium';
  readonly sides: 'box' | 'bottom' | 'top';
}

/** `refersTo` has a leading "=": `='Run 1'!$B$2:$D$4`, or a constant such as `="run;1;a1b2"`. */
export interface DefinedName {
  readonly name: string;
  readonly refersTo: string;
  readonly comment?: string;
  readonly hidden?: boolean;
}

export interface Validation {
  readonly range: string;
  readonly rule: ValidationRule;
  /** Shown when the cell is entered: title ≤ 32, message ≤ 255 characters (Excel's limits). */
  readonly prompt: { readonly title: string; readonly message: string };
  /** Shown when the entry is refused: title ≤ 32, message ≤ 224 characters. */
  readonly refusal: { readonly title: string; readonly message: string; readonly style: 'stop' | 'warning' };
}
export type ValidationRule =
  | { readonly type: 'number'; readonly min?: number; readonly max?: number; readonly whole?: boolean }
  | { readonly type: 'list'; readonly choices: readonly string[] }
  | { readonly type: 'date'; readonly min: string }
  | { readonly type: 'length'; readonly max: number }
  /** A formula that must be TRUE, relative to the range's first cell. */
  | { readonly type: 'formula'; readonly formula: string };

/** Two- or three-colour scale over a grid of readings. */
export interface ColourScale {
  readonly range: string;
  readonly low: string;
  readonly middle?: string;
  readonly high: string;
}

/** A cell whose text begins with `begins` is drawn in this style (used for check cells; never a formula). */
export interface Alert {
  readonly range: string;
  readonly begins: string;
  readonly fill: string;
  readonly color: string;
}

export interface PrintSetup {
  readonly area: string;
  readonly orientation: 'portrait' | 'landscape';
  /** Pages; 0 = as many as it takes. */
  readonly wide: number;
  readonly tall: number;
  /** Per cent of the size on the screen, where the number of pages does not say it. */
  readonly scale?: number;
  /** Rows repeated on every page, `4:5`. */
  readonly titles?: string;
  /** Columns repeated on every page, `A:B`. */
  readonly titleColumns?: string;
  /** Rows above which a new page begins, from the top. */
  readonly breaks?: readonly number[];
  /** Columns at whose left a new page begins, from the left. */
  readonly columnBreaks?: readonly string[];
}

/** A column chart beside the cells: one group of columns a category. Hosts without charts leave it out. */
export interface ColumnChart {
  readonly title: string;
  /** Cells that it covers, `L4:R18`. */
  readonly over: string;
  /** A row or column of names, and as many numbers a series. */
  readonly categories: string;
  readonly series: readonly { readonly name: string; readonly values: string }[];
}

/** Curves and points over a number axis beside the cells, such as light output over hours. */
export interface CurveChart {
  readonly kind: 'curves';
  readonly title: string;
  /** Cells that it covers, `K5:R24`. */
  readonly over: string;
  /** Titles of the axes, with units. */
  readonly across: string;
  readonly up: string;
  /** Where the axis upwards ends, if it does not follow the numbers; it begins at 0. */
  readonly top?: number;
  readonly series: readonly {
    readonly name: string;
    readonly x: string;
    readonly y: string;
    readonly drawn: 'points' | 'line' | 'dashes';
  }[];
}
export type Chart = ColumnChart | CurveChart;

export function isCurves(chart: Chart): chart is CurveChart {
  return 'kind' in chart;
}

/** Heads with arrows by which a program filters the lines below them. */
export interface TableFilter {
  /** The row of the heads and the lines. */
  readonly range: string;
  /** Lines may be sorted on the protected sheet; a program does it only where all their cells are open. */
  readonly sorts: boolean;
}

export interface CellNote {
  readonly at: string;
  readonly text: string;
}

export interface BookSheet {
  readonly name: string;
  readonly visibility: 'visible' | 'hidden' | 'veryHidden';
  /** By address without `$`: `{ B12: { value: 248 } }`. Empty unstyled cells are left out. */
  readonly cells: Readonly<Record<string, BookCell>>;
  readonly names: readonly DefinedName[];
  readonly validations: readonly Validation[];
  readonly scales: readonly ColourScale[];
  readonly alerts: readonly Alert[];
  readonly notes: readonly CellNote[];
  readonly merges: readonly string[];
  /** Width in characters by column letter, height in points by row number; 0 is hidden. */
  readonly columns: Readonly<Record<string, number>>;
  readonly rows: Readonly<Record<string, number>>;
  readonly isProtected: boolean;
  readonly freeze?: { readonly rows: number; readonly columns: number };
  readonly filter?: TableFilter;
  readonly gridlines: boolean;
  readonly print?: PrintSetup;
  /** Written to files and to Excel; not read back. */
  readonly charts?: readonly Chart[];
}

/** A sheet that nothing is on, but for its name. */
export const EMPTY_SHEET: Omit<BookSheet, 'name'> = {
  visibility: 'visible',
  cells: {},
  names: [],
  validations: [],
  scales: [],
  alerts: [],
  notes: [],
  merges: [],
  columns: {},
  rows: {},
  isProtected: false,
  gridlines: true,
};

export interface Book {
  readonly sheets: readonly BookSheet[];
  /** Workbook-scoped names; sheet-scoped ones stand with their sheet. */
  readonly names: readonly DefinedName[];
  readonly active?: string;
}

/**
 * Something in a file that a Book does not hold and that changes what a person sees or may change: a text box over a
 * result, a setting that rounds. Spreadsheet programs do not tell all of it to an add-in.
 */
export interface FileRemark {
  /** Empty where it is about the workbook. */
  readonly sheet: string;
  /** Cell or range. */
  readonly at?: string;
  /** One sentence. */
  readonly message: string;
  readonly expected: string;
  readonly found: string;
  /** True where numbers may be others or a result may be covered. */
  readonly isGrave: boolean;
  /** A chart is nothing to tell unless it covers cells that hold something. */
  readonly isChart?: boolean;
  /** A comment that people answer; programs that know only notes are given a note in its place. */
  readonly isComment?: boolean;
  /**
   * A link on cells: where it leads, an address or `#` and a place in the workbook, and what it says when it is pointed at.
   * Programs make links of what was typed, and on other cells than a layout fills they are nothing grave.
   */
  readonly link?: { readonly to: string; readonly tip: string };
}
