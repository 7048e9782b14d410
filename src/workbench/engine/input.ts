import type { ICellData } from '@univerjs/core';
import { parseValue } from 'numfmt';
import { isErrorKind } from '../../sheets/book';

/** What a cell may be given: numbers, texts, truth values; `null` empties it. */
export type Input = string | number | boolean | null;

export type Entry =
  | { readonly kind: 'empty' }
  | { readonly kind: 'formula'; readonly formula: string }
  | {
      readonly kind: 'value';
      readonly value: string | number | boolean;
      readonly format?: string;
      readonly forced?: boolean;
    };

/**
 * Text typed into a cell, or given through the API's `values`, which Excel reads the same way (reference of
 * `Range.values`; "@" is the text format): numbers, dates and percentages are recognised, a leading
 * apostrophe makes text, `=`, and `+` or `-` before something that is no number, make a formula.
 */
export function parseInput(input: Input, format = 'General'): Entry {
  if (input === null || input === '') return { kind: 'empty' };
  if (typeof input !== 'string') return { kind: 'value', value: input };
  if (input.startsWith("'")) return { kind: 'value', value: input.slice(1), forced: true };
  if (format === '@') return { kind: 'value', value: input, forced: true };
  if (input.startsWith('=') && input.length > 1) return { kind: 'formula', formula: input };
  // Numbers, dates and times have a digit; to ask the reader of all of them about every word takes long.
  const parsed = /\d|^\s*(?:true|false)\s*$/i.test(input) ? parseValue(input, { locale: 'en-US' }) : null;
  if (parsed && (typeof parsed.v === 'number' || typeof parsed.v === 'boolean'))
    return { kind: 'value', value: parsed.v, ...(parsed.z ? { format: parsed.z } : {}) };
  if (/^[+-]./.test(input)) return { kind: 'formula', formula: `=${input}` };
  return { kind: 'value', value: input };
}

/** Cell types of the engine (`CellValueType` of @univerjs/core). */
export const TYPE = { text: 1, number: 2, boolean: 3, forcedText: 4 } as const;

/** An entry as the engine's cell; what the cell held before is cleared, its style is left alone. */
export function cellOf(entry: Entry, encode: (formula: string) => string): ICellData {
  const empty = { v: null, f: null, si: null, p: null };
  if (entry.kind === 'empty') return empty;
  if (entry.kind === 'formula') return { ...empty, f: encode(entry.formula) };
  const { value, forced } = entry;
  if (typeof value === 'boolean') return { ...empty, v: value ? 1 : 0, t: TYPE.boolean };
  if (typeof value === 'number') return { ...empty, v: value, t: TYPE.number };
  // Text that would read as something else keeps a mark that it is text.
  const couldMislead =
    forced === true &&
    (parseInput(value).kind !== 'value' || typeof reread(value) !== 'string' || isErrorKind(value));
  return { ...empty, v: value, t: couldMislead ? TYPE.forcedText : TYPE.text };
}
/** The text of a cell whose letters have looks of their own; undefined for any other cell. */
export function richText(cell: ICellData | null): string | undefined {
  return cell?.p?.body?.dataStream.replace(/\r\n$/, '');
}

/** Whether a change of the engine's is one of what a cell holds, and not of its look alone. */
export function changesContents(cell: ICellData | null): boolean {
  return cell === null || ['v', 'f', 'p', 'si'].some((key) => key in cell);
}

function reread(value: string): unknown {
  const entry = parseInput(value);
  return entry.kind === 'value' ? entry.value : undefined;
}
