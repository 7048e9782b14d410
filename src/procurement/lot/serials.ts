/** Longest list that is read; one sheet lists fewer. */
export const MOST_UNITS_READ = 5000;

/** Serials of a list: one a line; a line copied from a table counts up to its first tab. */
export function serialsOf(text: string): string[] {
  return text
    .split(/\r\n?|\n/)
    .map((line) => line.split('\t')[0]!.normalize('NFC').trim())
    .filter((serial) => serial !== '');
}
