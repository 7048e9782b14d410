import type { Line } from '../../src/csv/split';
import type { IlluminanceUnit } from '../../src/photometry/units';
import { type BatchField, type BatchReadings, fieldsOf, pointsOf } from '../../src/procurement/batch/columns';
import type { Entry } from '../parse/cell';

/** The batch that a log goes into. */
export interface LogBatch {
  readonly readings: BatchReadings;
  readonly unit: IlluminanceUnit;
  /** Serial numbers line by line; empty where a line is free. */
  readonly serials: readonly string[];
  /** Whether a line has readings already. */
  readonly filled: readonly boolean[];
  /** Whether the ambient light stands in each line. */
  readonly isAmbientByRow: boolean;
}

/** One line of a log as understood, or the lines of one unit where each holds one reading. */
export interface LogRow {
  readonly lines: readonly Line[];
  /** The number of its first line. */
  readonly line: number;
  readonly serial: string;
  /** The only field that the line has; all of them where there is none. */
  readonly field?: BatchField;
  /** Line of the batch, counted from 0. */
  readonly target?: number;
  /** True where the serial number goes into a free line. */
  readonly isNew: boolean;
  readonly entries: readonly Entry[];
  readonly range?: number;
  readonly ambient?: number;
  readonly place?: string;
  readonly hours?: number;
  /** ISO date. */
  readonly date?: string;
  /** Why the line cannot be taken; nothing of it is. */
  readonly problems: readonly string[];
}

/** Where a line's readings begin in the row of the batch, counted from 0. */
export function offsetOf({ field }: LogRow, readings: BatchReadings): number {
  return field === undefined ? 0 : fieldsOf(readings).indexOf(field) * pointsOf(readings);
}
