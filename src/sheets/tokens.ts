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
  `(?<quoted>"(?:[^"]|"")*"?|'(?:[^']|'')*'?|#(?:N/A|[A-Z0-9/]+[!?])|\\[(?:[^[\\]]|\\[[^[\\]]*\\])*\\])`,
  '(?<lines>\\$?[A-Za-z]{1,3}:\\$?[A-Za-z]{1,3}(?![\\w.(!])|\\$?[0-9]+:\\$?[0-9]+)',
  '(?<number>[0-9]+(?:\\.[0-9]*)?(?:[eE][+-]?[0-9]+)?|\\.[0-9]+(?:[eE][+-]?[0-9]+)?)',
  '(?<cell>\\$?[A-Za-z]{1,3}\\$?[1-9][0-9]{0,6}(?![\\w.(!\\\\]))',
  '(?<word>[\\p{L}_\\\\][\\p{L}\\p{N}_.\\\\?]*)',
  '(?<space>\\s+)',
  '[\\s\\S]',
];
const PIECE = new RegExp(PIECES.join('|'), 'gu');

/** Splits a formula, with or without its "=". Joining the texts gives the formula back, always. */
export function tokens(formula: string): Token[] {
  return [...formula.matchAll(PIECE)].map((match) => ({
    text: match[0],
    kind: kindOf(match.groups ?? {}, formula[match.index + match[0].length]),
  }));
}

function kindOf(
  found: Readonly<Record<string, string | undefined>>,
  next: string | undefined,
): Token['kind'] {
  if (found.quoted !== undefined || found.number !== undefined) return 'text';
  if (found.word !== undefined) return next === '(' ? 'call' : 'word';
  if (found.lines !== undefined) return 'lines';
  if (found.cell !== undefined) return 'cell';
  return found.space !== undefined ? 'space' : 'other';
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
