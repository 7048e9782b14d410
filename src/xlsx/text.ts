/*
 * ST_Xstring (ECMA-376-1, 22.9.2.19): a character that XML cannot hold is written _xHHHH_, and a text that
 * happens to look like that has its underscore written _x005F_. The library escapes control characters but
 * neither of the other two, and it does not read the form back in attributes and notes.
 */

const LOOKS_ESCAPED = /_(?=x[0-9A-Fa-f]{4}_)/g;
/** U+FFFE, U+FFFF and, since the pattern reads whole characters, lone surrogates: none is an XML character. */
const NOT_XML = /[\uFFFE\uFFFF\uD800-\uDFFF]/gu;
const ESCAPED = /_x([0-9A-Fa-f]{4})_/g;

/** Text → what the file stores; the library adds the control characters. */
export function storeText(text: string): string {
  return text
    .replace(LOOKS_ESCAPED, '_x005F_')
    .replace(
      NOT_XML,
      (character) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`,
    );
}

/** What an attribute or a note stores → text. Cell texts come out of the library decoded already. */
export function showText(stored: string): string {
  return stored.replace(ESCAPED, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}
