import type { GridShape } from '../../src/photometry/reading';
import type { CellName } from '../../src/sheets/names/all';
import type { DecimalMark } from './number';

/** One grid of a sheet that readings can be pasted into. */
export interface BlockTarget {
  /** "white": as the preview and the messages call it. */
  readonly label: string;
  /** The sheet-scoped name behind which the cells stand. */
  readonly name: CellName;
  readonly shape: GridShape;
  /** Whether 0 can be a reading here. */
  readonly zero: 'reading' | 'missing';
}

/** How readings that came one after another lie on the screen: every row from the left, or every second from the right. */
export type Turn = 'from the left' | 'there and back';

/** Answers a person gave to questions about the pasted text. */
export interface Decisions {
  readonly mark?: DecimalMark;
  /** How the rows of the image were walked, where readings came one after another. */
  readonly turn?: Turn;
  readonly ones?: 'over range' | 'number';
}
