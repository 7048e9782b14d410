import { FIRST_DATE, TEXT_MAX } from '../../src/sheets/setup/fields';
import type { DecimalMark } from '../parse/number';
import { readNumber } from '../parse/readnumber';
import { isLengthUnit } from '../parse/units';
import type { FieldSpec, FieldTable, Read, Reads, Texts } from './field';

/** What the fields of a table hold at first. */
export function startOf<K extends string>(table: FieldTable<K>): Texts<K> {
  return mapped(table, (id) => table[id].start ?? '');
}

/** Reads every field. @param mark the decimal mark that is known of the text as a whole */
export function readAll<K extends string>(
  table: FieldTable<K>,
  texts: Texts<K>,
  mark?: DecimalMark,
): Reads<K> {
  return mapped(table, (id) => readField(table[id], texts[id], texts, mark));
}

export const isFit = ({ problem, question }: Read): boolean => !problem && !question;

/** The fields that want another look, in the order of the table. */
export function unfitIn<K extends string>(reads: Reads<K>): readonly K[] {
  return idsOf(reads).filter((id) => !isFit(reads[id]));
}

/** Those numbers that are there: what was not typed stays away. */
export function numbersIn<K extends string>(reads: Reads<K>, ids: readonly K[]): Partial<Record<K, number>> {
  return Object.fromEntries(
    ids.flatMap((id) => (reads[id].value === undefined ? [] : [[id, reads[id].value]])),
  ) as Partial<Record<K, number>>;
}

function idsOf<K extends string>(record: Readonly<Record<K, unknown>>): readonly K[] {
  return Object.keys(record) as K[];
}

function mapped<K extends string, T>(table: FieldTable<K>, to: (id: K) => T): Readonly<Record<K, T>> {
  return Object.fromEntries(idsOf(table).map((id) => [id, to(id)])) as Record<K, T>;
}

function readField<K extends string>(
  spec: FieldSpec<K>,
  text: string,
  texts: Texts<K>,
  mark?: DecimalMark,
): Read {
  const { label, needed, applies, check } = spec;
  if (applies && !applies(texts)) return {};
  const isEmpty = text.trim() === '';
  if (isEmpty && needed) return { problem: needed === true ? `${label} is needed.` : needed };
  const read = isEmpty ? {} : readKind(spec, text, texts, mark);
  return isFit(read) ? { ...read, ...check?.(text, texts) } : read;
}

function readKind<K extends string>(
  spec: FieldSpec<K>,
  text: string,
  texts: Texts<K>,
  mark?: DecimalMark,
): Read {
  switch (spec.kind) {
    case 'text':
    case 'lines': {
      const { label, max = spec.kind === 'text' ? TEXT_MAX : Number.POSITIVE_INFINITY } = spec;
      return text.trim().length > max ? { problem: `${label}: at most ${max} characters.` } : {};
    }
    case 'date':
      return readDate(spec.label, text);
    case 'choice':
      return Number.isNaN(Number(text)) ? {} : { value: Number(text) };
    case 'number': {
      if (spec.read) return spec.read(text, mark);
      const { otherUnit, ...read } = readNumber(
        text,
        typeof spec.expect === 'function' ? spec.expect(texts) : spec.expect,
        mark,
      );
      return spec.unitIn && otherUnit && isLengthUnit(otherUnit.unit) ? { ...read, otherUnit } : read;
    }
    case 'tick':
      return {};
  }
}

function readDate(label: string, text: string): Read {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || Number.isNaN(Date.parse(`${text}T00:00:00Z`)))
    return { problem: `${label}: not a day of the calendar.` };
  return text < FIRST_DATE ? { problem: `${label}: a date from ${FIRST_DATE.slice(0, 4)} on.` } : {};
}
