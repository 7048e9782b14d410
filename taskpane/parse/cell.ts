import { isOverRange } from '../../src/photometry/overrange';
import { ABSURD_LUX, placeOf } from '../../src/photometry/reading';
import { type IlluminanceUnit, LUX } from '../../src/photometry/units';
import { type DecimalMark, plainText, typedNumber } from './number';
import { shown } from './quantity';
import type { BlockTarget, Decisions } from './target';
import { unitOf } from './units';

/** One pasted cell as understood. */
export type Entry = { readonly text: string; readonly where: string } & (
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'over' }
  | { readonly kind: 'empty' }
  | { readonly kind: 'decimal?'; readonly point: number; readonly comma: number }
  | { readonly kind: 'one?' }
  | { readonly kind: 'refused'; readonly message: string }
);

interface Surroundings {
  readonly target: Omit<BlockTarget, 'name'>;
  /** Row by row within the grid, from 0. */
  readonly index: number;
  readonly unit: IlluminanceUnit;
  readonly mark: DecimalMark | undefined;
  readonly isLoneOne: boolean;
  readonly ones: Decisions['ones'];
  /** Where the cell stands, for messages: "Line 12, unit K-7"; row and column of the grid unless given. */
  readonly at?: string;
}

/** Error values as spreadsheets show them; German, French and other programs translate them, but keep the #. */
const ERROR_VALUE = /^#/;

/** Reads one cell of a pasted block: a number in the meter's unit, over range, empty, a question or a refusal. */
export function readCell(raw: string, surroundings: Surroundings): Entry {
  const { target, index, unit, mark, isLoneOne, ones, at } = surroundings;
  const text = plainText(raw);
  const where = placeOf(target.label, target.shape, index);
  const base = { text, where };
  const refuse = (expected: string, came: string): Entry => {
    const row = Math.floor(index / target.shape.columns) + 1;
    const column = (index % target.shape.columns) + 1;
    const place = at ?? `Row ${row}, column ${column}`;
    const message = `${place}, ${where}: expected ${expected}, came ${came}.`;
    return { ...base, kind: 'refused', message };
  };
  const quoted = `\u201c${text}\u201d`;
  if (isOverRange(text)) return { ...base, kind: 'over' };
  if (ERROR_VALUE.test(text)) return refuse(`a number in ${unit}`, `the error ${text}`);
  const typed = typedNumber(text, mark);
  if (typed.kind === 'blank') return { ...base, kind: 'empty' };
  if (typed.kind === 'unreadable') return refuse(`a number in ${unit}`, quoted);
  if (typed.unit !== '') {
    const came = unitOf(typed.unit);
    if (came === undefined) return refuse(`a number in ${unit}`, quoted);
    if (came !== unit)
      return refuse(
        `${unit}, the meter\u2019s unit on this sheet`,
        `${quoted}; nothing is converted unasked`,
      );
  }
  if (typed.kind === 'ambiguous')
    return { ...base, kind: 'decimal?', point: typed.point, comma: typed.comma };
  const { value } = typed;
  if (value < 0) return refuse('a number of at least 0', quoted);
  if (value === 0 && target.zero === 'missing') {
    return refuse('a reading above 0, or an empty cell if it was not taken', quoted);
  }
  if (!(value * LUX[unit] <= ABSURD_LUX)) {
    return refuse(`at most ${shown(Math.floor(ABSURD_LUX / LUX[unit]))} ${unit}`, quoted);
  }
  if (isLoneOne && ones !== 'number') return { ...base, kind: ones === 'over range' ? 'over' : 'one?' };
  return { ...base, kind: 'number', value };
}
