/**
 * The pieces of a formula that name something. Everything is kept, so that joining the texts gives the
 * formula back character for character.
 */
export type Token =
  | { readonly kind: 'text'; readonly text: string }
  /** A sheet before `!`: `Run1` or `'Run 1'`; `sheet` is the bare name. The `!` is part of `text`. */
  | { readonly kind: 'sheet'; readonly text: string; readonly sheet: string }
  /** A defined name, or a word that could be one. */
  | { readonly kind: 'name'; readonly text: string }
  | { readonly kind: 'function'; readonly text: string };

const PIECE =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'!?|#[A-Z/0]+[!?]?|\$?[A-Za-z]{1,3}\$?[0-9]{1,7}(?![A-Za-z0-9_.\\(!])|[0-9.]+(?:[Ee][+-]?[0-9]+)?|[A-Za-z_\\\p{L}][A-Za-z0-9_.\\?\p{L}\p{N}]*[(!]?|./gsu;

/** `=SUM('Run 1'!Area, 2)` → `=` `SUM(` sheet name … Array constants and text pass through as text. */
export function tokenize(formula: string): Token[] {
  const tokens: Token[] = [];
  let inArray = false;
  for (const [piece] of formula.matchAll(PIECE)) {
    if (piece === '{') inArray = true;
    if (piece === '}') inArray = false;
    tokens.push(inArray ? { kind: 'text', text: piece } : classify(piece));
  }
  return tokens;
}

function classify(piece: string): Token {
  if (piece.startsWith("'") && piece.endsWith("'!"))
    return { kind: 'sheet', text: piece, sheet: piece.slice(1, -2).replace(/''/g, "'") };
  if (/^[A-Za-z_\\\p{L}]/u.test(piece)) {
    if (piece.endsWith('!')) return { kind: 'sheet', text: piece, sheet: piece.slice(0, -1) };
    if (piece.endsWith('(')) return { kind: 'function', text: piece };
    const isReference = /^[A-Za-z]{1,3}[0-9]{1,7}$/.test(piece) || /^[A-Za-z]{1,3}\$/.test(piece);
    if (!isReference && !/^(true|false)$/i.test(piece)) return { kind: 'name', text: piece };
  }
  return { kind: 'text', text: piece };
}
