import type { FUniver } from '@univerjs/core/facade';
import type { CellValue } from '../../sheets/book';
import type { Calculation } from './calculation';
import type { Events } from './events';
import type { Formulas } from './formulas';
import type { Names } from './names';
import type { Port } from './port';

/** What a sheet may know of the others. */
interface Neighbour {
  readonly id: string;
  readonly name: string;
  value(row: number, column: number): CellValue;
}

/** What the sheets of a workbook stand on; `Engine` is all of it. */
export interface Ground {
  readonly api: FUniver;
  readonly port: Port;
  readonly calculation: Calculation;
  readonly events: Events;
  readonly formulas: Formulas;
  readonly names: Names;
  sheetById(id: string): Neighbour | undefined;
  sheetByName(name: string): Neighbour | undefined;
  /** Formulas as written → as the embedded engine keeps them, and back. */
  encode(formula: string, sheet: string): string;
  decode(formula: string, sheet: string): string;
  /** Why a custom function put an error into a cell, in its own words. */
  errorMessage(sheet: string, row: number, column: number): string | undefined;
  /** The cell is entered anew. */
  forgetMessage(sheet: string, row: number, column: number): void;
  /** Holds looks back, to be written in one go when everybody has let go. */
  holdLooks(): () => void;
  looksWait(cells: Looking): void;
  nextId(): string;
  /** The value of a formula in the embedded engine's own words as if it stood in a cell. */
  evaluate(sheet: { readonly id: string }, row: number, column: number, formula: string): Promise<unknown>;
}

/** Cells whose looks wait to be written. */
export interface Looking {
  readonly id: string;
  writeLooks(): void;
}
