import { once } from './once';

/**
 * A number format in the one spelling we compare. Programs write the same format in several ways: `0.0 %`, `0.0\ %`
 * and `0.0" "%` show the same; a locale mark and a text part at the end are added without being asked.
 */
export function normalFormat(format: string | undefined): string {
  if (format === undefined || format === '') return 'General';
  return format.length > LONGEST ? format : spellOnce(format);
}

/** Excel's limit in characters; a longer one is no format of ours. */
const LONGEST = 255;

const spellOnce = once((format) => {
  const out: string[] = [];
  let literal = '';
  const flush = () => {
    if (literal) out.push(`"${literal}"`);
    literal = '';
  };
  // An empty part for texts is added too where those for other numbers are empty.
  for (const [piece] of format.replace(/;@$/, '').replace(/;;;$/, ';;').matchAll(PIECE)) {
    if (/^\[\$-[^\]]*\]$/.test(piece)) continue;
    if (piece.startsWith('"')) literal += piece.slice(1, -1);
    else if (piece.startsWith('\\')) literal += piece.slice(1);
    else if (PLAIN_LITERAL.test(piece)) literal += piece;
    else {
      flush();
      out.push(piece.startsWith('[') ? normalMark(piece) : piece);
    }
  }
  flush();
  const whole = out.join('');
  return /^general$/i.test(whole) ? 'General' : whole;
});

/** A colour, or a condition, whose number has several spellings: `[>=1E+099]` is `[>=1e+99]`. */
function normalMark(mark: string): string {
  const [, sign, number] = /^\[([<>=]+)\s*(.+)\]$/.exec(mark) ?? [];
  return sign === undefined ? mark.toLowerCase() : `[${sign}${Number(number)}]`;
}

const PIECE = /"[^"]*"|\\[\s\S]|\[[^\]]*\]|[\s\S]/g;
/** Characters that show as themselves without quotes (ECMA-376-1, 18.8.31), and others no code is made of. */
const PLAIN_LITERAL = /^[\s$\-+/():!^&'~{}<>=°²³µ]$/;
