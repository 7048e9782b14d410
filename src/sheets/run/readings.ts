import { RANGE_FACTOR } from '../../photometry/bounds';
import { cellsOf, rectOf } from '../address';
import type { PlanBuilder } from '../builder';
import { isOverRangeCell, overRangeCount } from '../phrases/overrange';
import { FORMAT } from './layout';
import { READING_MAX } from './setup';

/** A grid of readings to be typed in, with its range factors. */
export interface GridSpec {
  /** Stem of its names: `White` gives `WhiteReadings`, `WhiteRange`. */
  readonly stem: string;
  readonly title: string;
  readonly rows: number;
  readonly columns: number;
  readonly range: number;
  readonly names: readonly string[];
}

/** The rule for a display reading: a number in bounds, or a sign for over range. */
export function validateReadings(
  b: PlanBuilder,
  range: string,
  title: string,
  factors = 'in the grid to the right',
): void {
  const first = cellsOf(range)[0]!;
  b.validate({
    range,
    rule: {
      type: 'formula',
      formula: `=OR(AND(ISNUMBER(${first}),N(${first})>=0,N(${first})<=${READING_MAX}),${isOverRangeCell(first)})`,
    },
    prompt: {
      title: title.slice(0, 32),
      message: `Type the number on the display, 0 to 200 000; the range factor stands ${factors}. If the meter shows over range, often as a lone 1, type: over`,
    },
    refusal: {
      title: 'Not a reading',
      message:
        'A reading is the number on the display, 0 to 200 000, without unit; or the word "over" for over range.',
      style: 'stop',
    },
  });
}

export function validateRanges(b: PlanBuilder, range: string): void {
  b.validate({
    range,
    rule: { type: 'number', ...RANGE_FACTOR },
    prompt: {
      title: 'Range factor',
      message: 'By how much the display is multiplied in the range used: 1, 10, 100 …',
    },
    refusal: {
      title: 'Range factor',
      message: 'The range factor is a number above 0, such as 1, 10 or 100.',
      style: 'stop',
    },
  });
}

/** Reading cells with their range factors; both are inputs. */
export function putInputs(b: PlanBuilder, spec: GridSpec, readings: string, ranges: string): void {
  b.put(readings, { role: 'reading', format: FORMAT.general });
  b.put(ranges, { role: 'factor', value: spec.range, format: FORMAT.factor });
  const isBelow = rectOf(readings).column === rectOf(ranges).column;
  validateReadings(b, readings, spec.title, isBelow ? 'below' : undefined);
  validateRanges(b, ranges);
}

/** Tells whether a cell, or how many cells of a range, hold a reading; as a formula without "=". */
export type IsReading = (range: string) => string;

/** Readings of a lit field must be above 0; black and ambient may be 0. */
export const above0: IsReading = (range) => `COUNTIF(${range},">0")`;
export const anyNumber: IsReading = (range) => `COUNT(${range})`;

/** Points that are named where they lack: more of them are seen at a glance. */
const FEW = 4;

/** "7 of 9 readings; to do: top left, centre", in plain functions that every program has. */
export function stateFormula(readings: string, names: readonly string[], isReading: IsReading): string {
  const cells = cellsOf(readings);
  const count = isReading(readings);
  const todo = cells.map((at, i) => `IF(${isReading(at)}=1,"","${names[i]}, ")`).join('&');
  const n = overRangeCount(readings);
  const over = `IF(${n}>0,"; over range: "&${n},"")`;
  const isSeen = `OR(${count}=${cells.length},${count}<${cells.length - FEW},COUNTA(${readings})=0)`;
  return `=${count}&" of ${cells.length} readings"&${over}&IF(${isSeen},"","; to do: "&${todo}&"then complete")`;
}
