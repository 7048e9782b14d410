/** Longest list that is read; one sheet lists fewer. */
export const MOST_UNITS_READ = 5000;
/** Characters of a serial number, in every cell and list: a longer one is refused, never cut. */
export const SERIAL_MAX = 80;

/** Serials of a list: one a line; a line copied from a table counts up to its first tab. */
export function serialsOf(text: string): string[] {
  return text
    .split(/\r\n?|\n/)
    .map((line) => serialText(line.split('\t')[0]!))
    .filter((serial) => serial !== '');
}

/** A serial number as a lot lists it and as its ticket is drawn. */
export function serialText(serial: string): string {
  return serial.normalize('NFC').trim();
}

/** Marks without width that come along with copied text. */
const INVISIBLE = /[\u200b-\u200f\u2060\ufeff]/g;

/**
 * How serial numbers are told apart, in cells, lists and files alike: letter by letter, with blanks as the formulas of
 * the sheets have them by TRIM, none at the ends and one inside. Empty for what is no serial number.
 */
export function serialKey(value: unknown): string {
  if (typeof value !== 'string' && typeof value !== 'number') return '';
  return String(value).normalize('NFC').replace(INVISIBLE, '').replace(/\s+/g, ' ').trim();
}
