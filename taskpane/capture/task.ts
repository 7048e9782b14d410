import type { CellPlace } from '../../src/excel/host';
import type { FieldId } from '../../src/fields/field';
import type { IlluminanceUnit } from '../../src/photometry/units';
import type { CellValue } from '../../src/sheets/book';
import type { Answer } from './answers';

/**
 * What there is to read on one sheet, as the pane tells the capture window: plain data, so that the window needs
 * neither the spreadsheet nor the layout of its sheets.
 */
export interface Task {
  readonly kind: 'run' | 'spot' | 'batch';
  /** Name of the sheet when the task was made; it may be renamed meanwhile. */
  readonly sheet: string;
  /** The sheet's own id, which stays. */
  readonly id: string;
  /** Address of the workbook, where the program tells one: a copy of it bears the same ids. */
  readonly workbook?: string;
  /** "Reading room 3, unit B, Bright". */
  readonly about: string;
  readonly unit: IlluminanceUnit;
  /** Step of the display's last digit at range factor 1. */
  readonly digit: number;
  /** Metres; absent where the sheet does not know the image. */
  readonly image?: { readonly width: number; readonly height: number };
  /** Spectral correction of each field, for comparing fields; 1 where there is none. */
  readonly spectral: Readonly<Record<Light, number>>;
  /** In the order of measuring. */
  readonly groups: readonly Group[];
  /** Cells beside the readings that can be written; absent on sheets that have none. */
  readonly cells: {
    readonly unit?: CellPlace;
    readonly mode?: CellPlace;
    readonly notes?: CellPlace;
  };
  /** Picture mode as it stands on the sheet. */
  readonly mode: string;
  /** What the readings have come to so far. */
  readonly answers: readonly Answer[];
}

/** Readings taken one after another while one field, or on a spot check one unit, is there. */
export interface Group {
  /** "WhiteReadings", "unit 3". */
  readonly id: string;
  /** "white", "pattern A", "Branch B". */
  readonly label: string;
  readonly rows: number;
  readonly columns: number;
  /** Said when the group begins: what has to be done before. */
  readonly intro?: string;
  /** The sheet has one range factor for the whole group. */
  readonly hasOneRange: boolean;
  /** What shares that factor, "each unit"; the whole board unless given. */
  readonly oneRangeFor?: string;
  /** The first reading after which the run is over: white centre again. */
  readonly isLast: boolean;
  /** Row by row as they lie on the screen. */
  readonly steps: readonly Step[];
}

/** What kind of light a reading is of. */
export type Light = 'white' | 'red' | 'green' | 'blue' | 'black' | 'ambient';

/** One reading. */
export interface Step {
  /** "WhiteReadings/1/1": name, row and column from 0. */
  readonly key: string;
  readonly group: string;
  /** "white", "pattern A, red tile", "checkerboard". */
  readonly label: string;
  /** "top left", "row 1, column 2". */
  readonly point: string;
  /** Number of the point or tile. */
  readonly number: number;
  readonly word: string;
  readonly at: CellPlace;
  readonly rangeAt: CellPlace;
  /** The range factor is that of an earlier reading, and is not changed from here. */
  readonly isRangeShared: boolean;
  readonly field: FieldId;
  readonly light: Light;
  /** Steps that should be alike bear the same word: one field, or one colour of the tiles. */
  readonly peers: string;
  /** Any place in the image will do: the one ambient reading. */
  readonly isAnywhere: boolean;
  /** Fraction of the image's width from its left edge, and of its height from its top edge. */
  readonly u: number;
  readonly v: number;
  /** Whether 0 can be a reading here. */
  readonly zero: 'reading' | 'missing';
  /** What the cell holds: a number, "over", nothing, or something that is no reading. */
  readonly value: CellValue;
  readonly factor: number;
}

/** "white, top left (point 1)". */
export function stepWords({ label, point, word, number }: Step): string {
  return `${label}, ${point} (${word} ${number})`;
}

export function stepKey({ name, row, column }: CellPlace): string {
  return `${name}/${row}/${column}`;
}

/** Where to hold the meter, in centimetres from the image's left and top edge; undefined without an image size. */
export function tapeOf(
  { u, v, isAnywhere }: Step,
  { image }: Task,
): { left: number; top: number } | undefined {
  if (isAnywhere) return undefined;
  return image && { left: u * image.width * 100, top: v * image.height * 100 };
}
