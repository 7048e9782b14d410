/**
 * A number format in the one spelling we compare. Programs write the same format in several ways: `0.0 %`, `0.0\ %`
 * and `0.0" "%` show the same; a locale mark and a text part at the end are added without being asked.
 */
export function normalFormat(format: string | undefined): string {
  if (format === undefined || format === '' || format.length > 255) return format ? format : 'General';
  const out: string[] = [];
  let literal = '';
  const flush = () => {
    if (literal) out.push(`"${literal}"`);
    literal = '';
  };
  for (const [piece] of format.replace(/;@$/, '').matchAll(PIECE)) {
    if (/^\[\$-[^\]]*\]$/.test(piece)) continue;
    if (piece.startsWith('"')) literal += piece.slice(1, -1);
    else if (piece.startsWith('\\')) literal += piece.slice(1);
    else if (PLAIN_LITERAL.test(piece)) literal += piece;
    else {
      flush();
      out.push(piece);
    }
  }
  flush();
  const whole = out.join('');
  return /^general$/i.test(whole)
    ? 'General'
    : whole.replace(/\[[a-z0-9]+\]/gi, (mark) => mark.toLowerCase());
}

const PIECE = /"[^"]*"|\\[\s\S]|\[[^\]]*\]|[\s\S]/g;
/** Characters that show as themselves without quotes (ECMA-376-1, 18.8.31), and others no code is made of. */
const PLAIN_LITERAL = /^[\s$\-+/():!^&'~{}<>=°²³µ]$/;
