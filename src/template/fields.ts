import * as v from 'valibot';
import { FIRST_DATE } from '../sheets/setup/fields';

/*
 * Pieces of the schema. The message of each says what the field takes, as it follows "it must be"; the reader adds
 * where it stands and what came.
 */

export interface Bounds {
  readonly moreThan?: number;
  readonly min?: number;
  readonly max: number;
  readonly whole?: true;
}

/** A number within bounds. JSON may hold numbers that overflow, so finite is part of it. */
export function number({ moreThan, min, max, whole }: Bounds) {
  const kind = whole ? 'a whole number' : 'a number';
  const low = moreThan === undefined ? `from ${min}` : `greater than ${moreThan}`;
  const message = `${kind} ${low}${moreThan === undefined ? ' to' : ', at most'} ${max}`;
  const isFit = (value: number) =>
    value <= max &&
    (moreThan === undefined || value > moreThan) &&
    (min === undefined || value >= min) &&
    (!whole || Number.isInteger(value));
  return v.pipe(v.number(message), v.check(isFit, message));
}

/** A part of 1. */
export const part = (min = 0) => number({ min, max: 1 });

/**
 * What cannot be seen, or turns the reading round: control characters, halves of pairs, marks of direction,
 * characters that are none. A file must not show one thing and hold another.
 */
const UNSEEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u00ad\u061c\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\uffff]|\p{Cs}/u;

/** One line of text, or with `isParagraph` several; blanks at the ends do not count. */
export function text(max: number, { min = 0, isParagraph = false } = {}) {
  const lines = isParagraph ? '' : ' on one line';
  const message = `a text of ${min > 0 ? `${min} to ${max}` : `at most ${max}`} characters${lines}, without invisible characters`;
  const isFit = (value: string) => {
    const tidy = value.trim();
    return (
      tidy.length >= min &&
      value.length <= max &&
      !UNSEEN.test(value) &&
      (isParagraph || !value.includes('\n'))
    );
  };
  return v.pipe(v.string(message), v.check(isFit, message), v.trim());
}

export function choice<const T extends readonly string[]>(choices: T) {
  return v.picklist(choices, `one of ${choices.map((each) => `"${each}"`).join(', ')}`);
}

export const truth = () => v.boolean('true or false');

/** A date, 2026-11-25, or an empty text. */
export const date = () => {
  const message = `a date such as "2026-11-25" from ${FIRST_DATE.slice(0, 4)} on, or an empty text`;
  return v.pipe(
    v.string(message),
    v.check((value) => value === '' || (isDate(value) && value >= FIRST_DATE), message),
  );
};

function isDate(value: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(value) && new Date(`${value}T00:00:00Z`).toJSON()?.slice(0, 10) === value;
}

/** A list of at most so many. */
export function list<const T extends v.GenericSchema>(item: T, max: number, min = 0) {
  const message = `a list of ${min > 0 ? `${min} to ${max}` : `at most ${max}`}`;
  return v.pipe(v.array(item, message), v.minLength(min, message), v.maxLength(max, message));
}

const OBJECT = 'an object with fields';

/** An object with these fields and no others, as an option of a `variant`. */
export function option<const T extends v.ObjectEntries>(entries: T) {
  return v.strictObject(entries, (issue) =>
    issue.expected === 'never' ? `known here: ${Object.keys(entries).join(', ')}` : OBJECT,
  );
}

/** An object with these fields and no others; the library takes an empty list for one. */
export function fields<const T extends v.ObjectEntries>(entries: T) {
  const schema = option(entries);
  const none = v.never(OBJECT) as unknown as typeof schema;
  return v.lazy((input) => (Array.isArray(input) ? none : schema));
}
