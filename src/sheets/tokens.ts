/** The pieces of a formula that matter when it is stored or moved. */
export interface Token {
  /**
   * `text`: literals, numbers, quoted names, whatever stands in brackets; `lines`: whole rows or columns (`2:3`,
   * `$B:D`); `call`: a function's name, its parenthesis follows; `word`: any other name; `other`: one character.
   */
  readonly kind: 'text' | 'lines' | 'cell' | 'call' | 'word' | 'space' | 'other';
  readonly text: string;
}

const PIECES = [
  // String literal, quoted sheet or file name, error literal, table reference or external book.
  `("(?:[^"]|"")*"?|'(?:[^']|'')*'?|#(?:N/A|[A-Z0-9/]+[!?])|\\[(?:[^[\\]]|\\[[^[\\]]*\\])*\\])`,
  // Whole rows or columns, number, cell, name, room, and any other character.
  '(\\$?[A-Za-z]{1,3}:\\$?[A-Za-z]{1,3}(?![\\w.(!])|\\$?[0-9]+:\\$?[0-9]+)',
  '([0-9]+(?:\\.[0-9]*)?(?:[eE][+-]?[0-9]+)?|\\.[0-9]+(?:[eE][+-]?[0-9]+)?)',
  '(\\$?[A-Za-z]{1,3}\\$?[1-9][0-9]{0,6}(?![\\w.(!\\\\]))',
  '([\\p{L}_\\\\][\\p{L}\\p{N}_.\\\\?]*)',
  '(\\s+)',
  '[\\s\\S]',
];
const PIECE = new RegExp(PIECES.join('|'), 'gu');

/** Splits a formula, with or without its "=". Joining the texts gives the formula back, always. */
export function tokens(formula: string): Token[] {
  const list: Token[] = [];
  PIECE.lastIndex = 0;
  for (let match = PIECE.exec(formula); match; match = PIECE.exec(formula))
    list.push({ text: match[0], kind: kindOf(match, formula[PIECE.lastIndex]) });
  return list;
}

/** By place, since every formula of every sheet comes by here, and groups with names cost as much again. */
function kindOf(
  [, quoted, lines, number, cell, word, space]: RegExpExecArray,
  next: string | undefined,
): Token['kind'] {
  if (cell !== undefined) return 'cell';
  if (word !== undefined) return next === '(' ? 'call' : 'word';
  if (quoted !== undefined || number !== undefined) return 'text';
  if (lines !== undefined) return 'lines';
  return space !== undefined ? 'space' : 'other';
}

/** The arguments of the call that starts at `start`, as ranges of token indexes `[from, to)`; and its end. */
export function argumentsOf(
  list: readonly Token[],
  start: number,
): { spans: [number, number][]; end: number } {
  const spans: [number, number][] = [];
  let depth = 0;
  let from = start + 2;
  for (let at = start + 1; at < list.length; at++) {
    const { kind, text } = list[at]!;
    if (kind !== 'other') continue;
    if (text === '(' || text === '{') depth++;
    if (text === ',' && depth === 1) {
      spans.push([from, at]);
      from = at + 1;
    }
    if (text === ')' || text === '}') depth--;
    if (depth === 0) return { spans: [...spans, [from, at]], end: at };
  }
  return { spans: [...spans, [from, list.length]], end: list.length };
}
