/** What ends a cell in a file that is written. */
export type Separator = ',' | ';';
export type CsvCell = string | number | boolean | null;

/** A number of a table as a text has it, and nothing else. */
const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;

/** Signs that begin a formula in some spreadsheet program, also in full width. */
const SIGN = '[=+\\-@\uff1d\uff0b\uff0d\uff20]';
/** What may stand before them unseen: blanks, quotation marks, characters without width. */
const UNSEEN = '(?:[^\\S\\t\\r\\n]|[\\p{Cf}"\'])*';
/** Where a text would begin a formula; or with a tab or a line end, which some programs drop. */
const BEGINNING = `(?=${UNSEEN}(?:${SIGN}|[\\t\\r\\n]))`;

/**
 * Rows as separated values (RFC 4180). Numbers stay numbers. A text that a spreadsheet program would run as a formula
 * gets an apostrophe before it (common practice); and since another country's program parts cells at another mark and
 * then knows nothing of our quotation marks, so does every part of a text behind such a mark or a line end.
 * The first cell of a row is no number below 0: behind a sign such a program would take in the rest of the line.
 * @param shown how a number is written; it must not hold the separator
 */
export function csvText(
  rows: readonly (readonly CsvCell[])[],
  separator: Separator = ',',
  shown: (value: number) => string = String,
): string {
  return rows
    .map((row) => `${row.map((cell, at) => written(cell, at, separator, shown)).join(separator)}\r\n`)
    .join('');
}

function written(value: CsvCell, at: number, separator: Separator, shown: (value: number) => string): string {
  if (value === null) return '';
  if (typeof value === 'number') return shown(value);
  const text =
    typeof value === 'boolean' || (at > 0 && NUMBER.test(value)) ? String(value) : guarded(value, separator);
  return /[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A text with an apostrophe wherever it, or a part that another program takes for a cell, would begin a formula. */
export function guarded(text: string, separator: Separator): string {
  return text
    .replace(new RegExp(`^${BEGINNING}`, 'u'), "'")
    .replace(new RegExp(`(${foreignTo(separator)})(?=${UNSEEN}${SIGN})`, 'gu'), "$1'");
}

/** A text as it was before `guarded`, when it comes back. */
export function unguarded(text: string, separator: Separator): string {
  return text
    .replace(new RegExp(`(${foreignTo(separator)})'(?=${UNSEEN}${SIGN})`, 'gu'), '$1')
    .replace(new RegExp(`^'${BEGINNING}`, 'u'), '');
}

/** What ends a cell for programs that do not read this separator. */
function foreignTo(separator: Separator): string {
  return `[${separator === ',' ? ';' : ','}\\t\\r\\n]`;
}
