/** Which character a person's decimals use; the other one may group thousands. */
export type DecimalMark = 'point' | 'comma';

/** A number as somebody typed it. `unit` is whatever stood behind it, untouched but trimmed. */
export type TypedNumber =
  | { readonly kind: 'blank' }
  | {
      readonly kind: 'number';
      readonly value: number;
      readonly unit: string;
      /** The decimal mark this number proves, if it proves one: "1.234,5" proves the comma. */
      readonly proves?: DecimalMark;
    }
  | {
      /** "1.234" and "1,234": a decimal or a thousand, and nothing in the text tells which. */
      readonly kind: 'ambiguous';
      readonly point: number;
      readonly comma: number;
      readonly unit: string;
    }
  | { readonly kind: 'unreadable' };

/** Every space that word processors, spreadsheets and web pages put into numbers: no-break, thin, figure … */
const SPACES = /[\s\u00a0\u2000-\u200a\u202f\u205f\u3000]+/g;
/** Marks without width that come along with copied text. */
const INVISIBLE = /[\u200b-\u200f\u2060\ufeff]/g;

/** Copied text with plain single spaces and nothing invisible. */
export function plainText(text: string): string {
  return text.replace(INVISIBLE, '').replace(SPACES, ' ').trim();
}

/** Sign, the digits with everything that may stand between them, and the rest. */
const TYPED = /^([-+\u2212\u2013]?) ?([.,]?\d(?:[\d.,' \u2019]*\d)?)(.*)$/;
const EXPONENT = /^[eE]([-+]?\d{1,2})(?![\d.,])(.*)$/;

/**
 * Understands a number with decimal comma or point, grouped thousands (comma, point, space, apostrophe) and a
 * unit behind it. What can be read in two ways a factor of 1000 apart comes back as ambiguous, unless `mark`
 * says which decimal mark is meant.
 */
export function typedNumber(raw: string, mark?: DecimalMark): TypedNumber {
  const text = plainText(raw);
  if (text === '') return { kind: 'blank' };
  const match = TYPED.exec(text);
  if (!match) return { kind: 'unreadable' };
  const [, sign, body = '', rest = ''] = match;
  const factor = sign === '' || sign === '+' ? 1 : -1;
  const exponent = EXPONENT.exec(rest);
  const unit = (exponent ? exponent[2]! : rest).trim();
  const scale = factor * 10 ** Number(exponent?.[1] ?? 0);
  const digits = readDigits(body, exponent ? markOf(body) : mark);
  if (digits === undefined) return { kind: 'unreadable' };
  if ('point' in digits) {
    return { kind: 'ambiguous', point: factor * digits.point, comma: factor * digits.comma, unit };
  }
  // One conversion from the decimal text, so that 2.1E+03 is exactly 2100.
  const value = exponent
    ? Math.sign(scale) * Number(`${digits.value}e${exponent[1]}`)
    : factor * digits.value;
  return { kind: 'number', value, unit, ...(digits.proves ? { proves: digits.proves } : {}) };
}

type Digits =
  | { readonly value: number; readonly proves?: DecimalMark }
  | { readonly point: number; readonly comma: number };

/** Before an exponent a separator can only be the decimal mark: nobody writes 1,234E3 for 1 234 000. */
function markOf(body: string): DecimalMark | undefined {
  if (body.includes('.')) return 'point';
  return body.includes(',') ? 'comma' : undefined;
}

function readDigits(body: string, mark: DecimalMark | undefined): Digits | undefined {
  const grouped = ungroup(body, " '\u2019");
  if (grouped !== undefined && /^\d+$/.test(grouped)) return { value: Number(grouped) };
  const asPoint = withMark(body, '.', ',');
  const asComma = withMark(body, ',', '.');
  if (asPoint === undefined && asComma === undefined) return undefined;
  if (asPoint !== undefined && asComma !== undefined) {
    if (mark === 'point') return { value: asPoint };
    if (mark === 'comma') return { value: asComma };
    return { point: asPoint, comma: asComma };
  }
  return asPoint !== undefined ? { value: asPoint, proves: 'point' } : { value: asComma!, proves: 'comma' };
}

/** Reads the digits with a given decimal mark; undefined where they do not fit it. */
function withMark(body: string, decimal: '.' | ',', grouping: '.' | ','): number | undefined {
  const parts = body.split(decimal);
  if (parts.length > 2) return undefined;
  const [whole = '', fraction] = parts;
  if (fraction !== undefined && !/^\d+$/.test(fraction)) return undefined;
  const plain =
    whole === '' ? '0' : (ungroup(whole, ' ') ?? ungroup(whole, "'\u2019") ?? ungroup(whole, grouping));
  return plain === undefined ? undefined : Number(fraction === undefined ? plain : `${plain}.${fraction}`);
}

/**
 * Takes the grouping out of a whole number: groups of three, or the Indian 12,34,567. "0,123" is no group,
 * for nobody writes thousands with a leading zero.
 */
function ungroup(whole: string, marks: string): string | undefined {
  if (/^\d+$/.test(whole)) return whole;
  const mark = [...marks].find((candidate) => whole.includes(candidate));
  if (mark === undefined || whole.startsWith('0')) return undefined;
  const groups = whole.split(mark);
  const [first = '', ...others] = groups;
  const last = others.at(-1) ?? '';
  const areDigits = groups.every((group) => /^\d+$/.test(group));
  const isWestern = first.length <= 3 && others.every((group) => group.length === 3);
  const isIndian =
    first.length <= 2 &&
    last.length === 3 &&
    others.length > 1 &&
    others.slice(0, -1).every((g) => g.length === 2);
  return areDigits && (isWestern || isIndian) ? groups.join('') : undefined;
}
