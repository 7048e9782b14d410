import type { GridShape } from '../../src/photometry/reading';
import type { DecimalMark } from './number';

/** One grid of a sheet that readings can be pasted into. */
export interface BlockTarget {
  /** "white": as the preview and the messages call it. */
  readonly label: string;
  /** The sheet-scoped name behind which the cells stand. */
  readonly name: string;
  readonly shape: GridShape;
  /** Whether 0 can be a reading here. */
  readonly zero: 'reading' | 'missing';
}

/** Answers a person gave to questions about the pasted text. */
export interface Decisions {
  readonly mark?: DecimalMark;
  readonly ones?: 'over range' | 'number';
}
