import { parseAspect } from '../../src/photometry/image';
import { FIRST_DATE, TEXT_MAX } from '../../src/sheets/setup/fields';
import type { DecimalMark } from '../parse/number';
import { quantity } from '../parse/quantity';
import type { FieldId, Texts } from './field';
import { FIELDS } from './fields';

/** What a field's text came to. Without `error` and `question` the field is fit to build with. */
export interface Check {
  /** The number, where the field is one. */
  readonly value?: number;
  readonly error?: string;
  /** Two readings of one number: the person says which. */
  readonly question?: { readonly message: string; readonly point: number; readonly comma: number };
  /** A length of the image in another unit: the form can switch to it. */
  readonly otherUnit?: { readonly value: number; readonly unit: string };
  /** How the text was understood, or what is worth knowing about it. */
  readonly echo?: string;
}

/** A meter's calibration older than this is noted (common practice). */
const YEAR_MS = 366 * 86_400_000;

/** Checks one field. A field that does not apply is always fit. */
export function checkField(id: FieldId, texts: Texts, mark?: DecimalMark): Check {
  const spec = FIELDS[id];
  const text = texts[id];
  if (spec.applies && !spec.applies(texts)) return {};
  if (text.trim() === '') return spec.isRequired ? { error: `${spec.label} is needed.` } : {};
  switch (spec.kind) {
    case 'choice':
      return Number.isNaN(Number(text)) ? {} : { value: Number(text) };
    case 'text':
      return text.trim().length > TEXT_MAX ? { error: `${spec.label}: at most ${TEXT_MAX} characters.` } : {};
    case 'date':
      return checkDate(id, text, texts);
    case 'aspect': {
      const aspect = parseAspect(text.replace(/(\d),(\d)/g, '$1.$2'));
      return aspect.ok ? {} : { error: aspect.problems[0]!.message };
    }
    case 'number':
      return checkNumber(id, texts, mark);
  }
}

function checkNumber(id: FieldId, texts: Texts, mark?: DecimalMark): Check {
  const spec = FIELDS[id];
  if (spec.kind !== 'number') return {};
  const read = quantity(texts[id], spec.expect(texts), mark);
  switch (read.state) {
    case 'blank':
      return {};
    case 'value':
      return { value: read.value, ...(read.echo ? { echo: `Understood as ${read.echo}.` } : {}) };
    case 'ask':
      return { question: read };
    case 'other unit':
      return {
        error: read.message,
        ...(spec.isImageLength ? { otherUnit: { value: read.value, unit: read.unit } } : {}),
      };
    case 'refused':
      return { error: read.message };
  }
}

function checkDate(id: FieldId, text: string, texts: Texts): Check {
  const time = Date.parse(`${text}T00:00:00Z`);
  const { label } = FIELDS[id];
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || Number.isNaN(time))
    return { error: `${label}: not a day of the calendar.` };
  if (text < FIRST_DATE) return { error: `${label}: a date from ${FIRST_DATE.slice(0, 4)} on.` };
  if (id === 'dueOn')
    return texts.date !== '' && text <= texts.date
      ? { echo: 'The calibration is due: the meter may be off by more than its data sheet says.' }
      : {};
  if (id !== 'calibratedOn') return {};
  const age = Date.parse(`${texts.date}T00:00:00Z`) - time;
  if (age < 0) return { error: `${label}: this is after the date of the measurement.` };
  return age > YEAR_MS
    ? { echo: 'More than a year before the measurement: the sheet will show the date.' }
    : {};
}
