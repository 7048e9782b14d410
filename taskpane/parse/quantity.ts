import { type DecimalMark, plainText, typedNumber } from './number';
import { unitOf } from './units';

/** What a field takes. Bounds are in the field's own unit and belong to the allowed values unless said. */
export interface Expectation {
  /** "image width": begins the messages. */
  readonly what: string;
  /** The unit the number is in; "" for a plain number. "%" reads "80" and "80 %" alike. */
  readonly unit: string;
  readonly moreThan?: number;
  readonly min?: number;
  readonly max?: number;
  readonly isWhole?: true;
}

/** What became of the text in a field. */
export type Quantity =
  | { readonly state: 'blank' }
  /** `echo` repeats the value where the text needed understanding: "1 234,5 lx" → "1234.5 lx". */
  | { readonly state: 'value'; readonly value: number; readonly echo: string }
  /** Two readings, a factor of 1000 apart: the person says which. */
  | { readonly state: 'ask'; readonly message: string; readonly point: number; readonly comma: number }
  /** The number is clear but in another unit than the field's: nothing is converted unasked. */
  | { readonly state: 'other unit'; readonly message: string; readonly value: number; readonly unit: string }
  | { readonly state: 'refused'; readonly message: string };

/** Reads one field. Of two possible readings, one outside the field's bounds is no possible reading. */
export function quantity(text: string, expected: Expectation, mark?: DecimalMark): Quantity {
  const typed = typedNumber(text, mark);
  if (typed.kind === 'blank') return { state: 'blank' };
  if (typed.kind === 'unreadable')
    return refuse(expected, `It must be a number; it is \u201c${plainText(text)}\u201d.`);
  const unit = typed.unit === '' ? expected.unit : unitOf(typed.unit);
  if (unit === undefined)
    return refuse(expected, `\u201c${typed.unit}\u201d is not a unit known here. ${unitHint(expected)}`);
  if (typed.kind === 'ambiguous') {
    const fits = [typed.point, typed.comma].filter((value) => objection(value, expected) === undefined);
    if (unit === expected.unit && fits.length === 1) return settled(fits[0]!, text, expected);
    if (fits.length === 0 && unit === expected.unit)
      return refuse(expected, `${objection(typed.point, expected)}.`);
    const [a, b] = [typed.point, typed.comma];
    const message = `\u201c${plainText(text)}\u201d can mean ${shown(a)} or ${shown(b)}. Which is it?`;
    return { state: 'ask', message, point: a, comma: b };
  }
  if (unit !== expected.unit) {
    const message =
      expected.unit === ''
        ? `The ${expected.what} has no unit; \u201c${typed.unit}\u201d was typed with it. Type the number alone.`
        : `The ${expected.what} is in ${expected.unit} here, and ${shown(typed.value)} ${unit} was typed. Type it in ${expected.unit}.`;
    return { state: 'other unit', message, value: typed.value, unit };
  }
  return settled(typed.value, text, expected);
}

function settled(value: number, text: string, expected: Expectation): Quantity {
  const wrong = objection(value, expected);
  if (wrong) return refuse(expected, `${wrong}; it is ${shown(value)}.`);
  const isPlain = /^\d+(\.\d+)?$/.test(text.trim()) && Number(text) === value;
  return {
    state: 'value',
    value,
    echo: isPlain ? '' : `${shown(value)}${expected.unit ? ` ${expected.unit}` : ''}`,
  };
}

function refuse({ what }: Expectation, message: string): Quantity {
  return {
    state: 'refused',
    message: `${what.charAt(0).toUpperCase()}${what.slice(1)}: ${lowerFirst(message)}`,
  };
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function unitHint({ unit }: Expectation): string {
  return unit === '' ? 'Type the number alone.' : `Type the number alone or with ${unit}.`;
}

/** "It must be greater than 0", or nothing if the value is allowed. */
function objection(value: number, { moreThan, min, max, isWhole }: Expectation): string | undefined {
  if (!Number.isFinite(value)) return 'It must be a finite number';
  const lower =
    moreThan !== undefined
      ? `greater than ${shown(moreThan)}`
      : min !== undefined
        ? `at least ${shown(min)}`
        : '';
  const upper = max !== undefined ? `at most ${shown(max)}` : '';
  const isLow = (moreThan !== undefined && !(value > moreThan)) || (min !== undefined && value < min);
  const isHigh = max !== undefined && value > max;
  if (!isLow && !isHigh) return isWhole && !Number.isInteger(value) ? 'It must be a whole number' : undefined;
  return `It must be ${[lower, upper].filter(Boolean).join(' and ')}`;
}

/** A number in words that cannot be mistaken: no grouping, decimal point. */
export function shown(value: number): string {
  return String(Number(value.toPrecision(12)));
}

/** The same as a person would type it: three decimals get a zero so that they are not taken for thousands. */
export function retyped(value: number): string {
  return shown(value).replace(/^(-?\d+\.\d{3})$/, '$10');
}
