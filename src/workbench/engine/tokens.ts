import { type Token as Piece, tokens } from '../../sheets/tokens';

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
  /** The parenthesis is part of `text`. */
  | { readonly kind: 'function'; readonly text: string };

/** `=SUM('Run 1'!Area, 2)` → `=` `SUM(` sheet name … Array constants and text pass through as text. */
export function tokenize(formula: string): Token[] {
  const pieces = tokens(formula);
  const list: Token[] = [];
  let inArray = false;
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i]!;
    if (piece.text === '{') inArray = true;
    if (piece.text === '}') inArray = false;
    const token: Token = inArray ? { kind: 'text', text: piece.text } : classify(piece, pieces[i + 1]?.text);
    list.push(token);
    if (token.text.length > piece.text.length) i++;
  }
  return list;
}

function classify({ kind, text }: Piece, next: string | undefined): Token {
  if (next === '!' && kind === 'word') return { kind: 'sheet', text: `${text}!`, sheet: text };
  if (next === '!' && /^'.*'$/s.test(text))
    return { kind: 'sheet', text: `${text}!`, sheet: text.slice(1, -1).replace(/''/g, "'") };
  if (kind === 'call') return { kind: 'function', text: `${text}(` };
  const isName = kind === 'word' && !/^(?:true|false|[A-Za-z]{1,3}[0-9]{1,7})$/i.test(text);
  return { kind: isName ? 'name' : 'text', text };
}
