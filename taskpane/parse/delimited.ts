/** How the cells of a pasted text were told apart. */
export type Delimiter = 'tab' | 'semicolon' | 'comma' | 'comma and space' | 'space' | 'none';

export interface Table {
  readonly delimiter: Delimiter;
  readonly rows: readonly (readonly string[])[];
}

/**
 * The ways a pasted text can be a table, most certain first. A tab settles it: only spreadsheets put one
 * there. Otherwise several may be possible, since a comma can end a cell or begin a decimal; the wanted shape
 * decides between them (`block.ts`).
 */
export function tables(text: string): Table[] {
  const clean = text.replace(/\r\n?/g, '\n').replace(/^\ufeff/, '');
  if (clean.trim() === '') return [];
  if (hasOutsideQuotes(clean, '\t')) return [table(clean, 'tab')];
  if (hasOutsideQuotes(clean, ';')) return [table(clean, 'semicolon')];
  const delimiters: Delimiter[] = ['none', 'comma', 'comma and space', 'space'];
  return delimiters.map((delimiter) => table(clean, delimiter));
}

const PATTERNS: Readonly<Record<Delimiter, RegExp>> = {
  tab: /\t/y,
  semicolon: /;/y,
  comma: /,/y,
  'comma and space': /,[ \u00a0]+/y,
  // A no-break or thin space groups thousands; only plain spaces part cells.
  space: / +/y,
  none: /(?!)/y,
};

function table(text: string, delimiter: Delimiter): Table {
  const rows = split(delimiter === 'space' ? text.replace(/^ +| +$/gm, '') : text, PATTERNS[delimiter]);
  return { delimiter, rows: level(withoutBlankEnds(rows)) };
}

/** Cells by delimiter and line end; a cell in double quotes may hold both, and "" for a quote (RFC 4180). */
function split(text: string, delimiter: RegExp): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let isQuoted = false;
  let at = 0;
  while (at < text.length) {
    const character = text[at]!;
    if (isQuoted) {
      if (character !== '"') cell += character;
      else if (text[at + 1] === '"') {
        cell += '"';
        at++;
      } else isQuoted = false;
      at++;
      continue;
    }
    delimiter.lastIndex = at;
    const match = delimiter.exec(text);
    if (match) {
      rows.at(-1)!.push(cell);
      cell = '';
      at += match[0].length;
    } else if (character === '\n') {
      rows.at(-1)!.push(cell);
      rows.push([]);
      cell = '';
      at++;
    } else {
      // A quote opens a cell only at its beginning; inside it is an inch sign or a slip.
      if (character === '"' && cell.trim() === '' && text.indexOf('"', at + 1) > at) {
        isQuoted = true;
        cell = '';
      } else cell += character;
      at++;
    }
  }
  rows.at(-1)!.push(cell);
  return rows;
}

function hasOutsideQuotes(text: string, character: string): boolean {
  return text.replace(/"[^"]*"/g, '').includes(character);
}

const isBlankRow = (row: readonly string[]) => row.every((cell) => cell.trim() === '');

/** One line end at the end of a copy is no row. Blank lines between readings are missing readings and stay. */
function withoutBlankEnds(rows: string[][]): string[][] {
  const kept = [...rows];
  if (kept.length > 1 && kept.at(-1)!.length === 1 && isBlankRow(kept.at(-1)!)) kept.pop();
  return kept;
}

/** Rows of equal length: a spreadsheet leaves nothing out, a typed CSV may end a row early. */
function level(rows: string[][]): string[][] {
  const width = Math.max(...rows.map((row) => row.length));
  return rows.map((row) => [...row, ...Array<string>(width - row.length).fill('')]);
}
