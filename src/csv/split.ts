/** What parts the cells of a line. */
export type Mark = 'tab' | 'semicolon' | 'comma' | 'comma and space' | 'space' | 'none';

/** One row of a table in a text. */
export interface Line {
  /** Line of the text on which it begins, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
  /** As it stands in the text. */
  readonly raw: string;
  /** Why its cells cannot be told apart for certain; they are then parted as if quotation marks meant nothing. */
  readonly fault?: string;
}

const ENDS: Readonly<Record<Mark, RegExp>> = {
  tab: /\t|\n/g,
  semicolon: /;|\n/g,
  comma: /,|\n/g,
  'comma and space': /,[ \u00a0]+|\n/g,
  // A no-break or thin space groups thousands; only plain spaces part cells.
  space: / +(?! |$|\n)|\n/g,
  none: /\n/g,
};

/**
 * The rows of a text, a mark between their cells. A cell in double quotes may hold the mark, line ends, and `""` for a
 * quotation mark (RFC 4180); a quotation mark inside a cell is one. Empty lines stay, a last line end makes none.
 */
export function split(text: string, mark: Mark): Line[] {
  const source = plainEnds(text);
  const lines: Line[] = [];
  let [at, line] = [0, 1];
  while (at < source.length) {
    const { cells, end, fault } = rowAt(source, at, mark);
    lines.push({ line, cells, raw: source.slice(at, end), ...(fault ? { fault } : {}) });
    line += 1 + countEnds(source, at, end);
    at = end + 1;
  }
  return lines;
}

/** A text with one kind of line end and without the mark that some programs put in front. */
function plainEnds(text: string): string {
  return text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
}

interface Row {
  readonly cells: string[];
  /** Where its line end stands, or the text's end. */
  readonly end: number;
  readonly fault?: string;
}

function rowAt(source: string, from: number, mark: Mark): Row {
  const ends = ENDS[mark];
  const cells: string[] = [];
  let fault: string | undefined;
  let at = mark === 'space' ? pastSpaces(source, from) : from;
  for (;;) {
    const quoted = fault === undefined ? quotedAt(source, at, ends) : undefined;
    if (typeof quoted === 'string') fault = quoted;
    const cellEnd = typeof quoted === 'object' ? quoted.next : at;
    ends.lastIndex = cellEnd;
    const found = ends.exec(source);
    const end = found?.index ?? source.length;
    cells.push(typeof quoted === 'object' ? quoted.cell : source.slice(at, end));
    if (!found || found[0] === '\n') return { cells, end, ...(fault ? { fault } : {}) };
    at = end + found[0].length;
  }
}

/** A cell in quotation marks and where it ends; why it is none; undefined for a cell without them. */
function quotedAt(
  source: string,
  from: number,
  ends: RegExp,
): { cell: string; next: number } | string | undefined {
  const open = pastSpaces(source, from);
  if (source[open] !== '"') return undefined;
  let close = source.indexOf('"', open + 1);
  while (close >= 0 && source[close + 1] === '"') close = source.indexOf('"', close + 2);
  if (close < 0) return 'a quotation mark is never closed';
  const next = pastSpaces(source, close + 1);
  // A space may be the mark itself.
  const isEnd = [close + 1, next].some((place) => {
    ends.lastIndex = place;
    return place >= source.length || ends.exec(source)?.index === place;
  });
  if (!isEnd) return 'text after a closing quotation mark';
  return { cell: source.slice(open + 1, close).replaceAll('""', '"'), next: close + 1 };
}

function pastSpaces(source: string, from: number): number {
  let at = from;
  while (source[at] === ' ') at++;
  return at;
}

function countEnds(source: string, from: number, to: number): number {
  let count = 0;
  for (let at = source.indexOf('\n', from); at >= 0 && at < to; at = source.indexOf('\n', at + 1)) count++;
  return count;
}
