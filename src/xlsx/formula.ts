import { type Token, tokens } from '../sheets/tokens';
import { damaged } from './error';
import { futurePrefix } from './future';
import { variableTokens } from './variables';

/** Namespace of our custom functions, as in the manifest. Function ids hold no underscore. */
const NAMESPACE = 'LIGHT';

const OWN_CALL = new RegExp(`^${NAMESPACE}\\.`, 'i');
const STORED_CALL = new RegExp(`^_xldudf_${NAMESPACE}_(.+)$`, 'i');
const HIDDEN_PREFIX = /^(?:_xlfn\.)?(?:_xlws\.|_xlpm\.)?/i;
/** Twice Excel's limit: prefixes count in it, and other programs are not so strict. */
const LENGTH_MAX = 16_384;
const ANCHOR = '_xlfn.ANCHORARRAY';

/**
 * A formula as people see it (`=LIGHT.OUTPUT(B2:D4)`) → as a file stores it (`_xldudf_LIGHT_OUTPUT(B2:D4)`).
 * Newer functions get their hidden prefix, `B2#` becomes ANCHORARRAY, and `@` goes: in a stored formula that is
 * not a dynamic array it is understood.
 */
export function storeFormula(formula: string): string {
  const list = tokens(formula.replace(/^=/, '').replace(/\r\n?/g, '\n'));
  const variables = variableTokens(list);
  const out = list.map(({ text }) => text);
  list.forEach(({ kind, text }, at) => {
    if (variables.has(at)) out[at] = `_xlpm.${text}`;
    else if (kind === 'call' && OWN_CALL.test(text)) {
      out[at] = `_xldudf_${text.toUpperCase().replace(/\./g, '_')}`;
    } else if (kind === 'call') out[at] = futurePrefix(text) + text;
    else if (kind === 'other' && text === '@') out[at] = '';
    else if (kind === 'other' && text === '#' && list[at - 1]?.kind === 'cell') {
      const first = referenceStart(list, at - 1);
      out[first] = `${ANCHOR}(${out[first]}`;
      out[at] = ')';
    }
  });
  return out.join('');
}

/**
 * A stored formula → as people see it, with its "=". A call of ours that was stored with an external book in
 * front (`[2]!_xldudf_…`, `Book.xla!_xldudf_…`, seen in files that went through a machine without the add-in)
 * is read as the plain call.
 *
 * @throws XlsxError `damaged` for a formula that is far too long.
 */
export function showFormula(stored: string): string {
  if (stored.length > LENGTH_MAX) throw damaged('it has a formula longer than any program writes');
  const list = tokens(stored);
  const out = list.map(({ text }) => text);
  list.forEach(({ kind, text }, at) => {
    if (kind !== 'call' && kind !== 'word') return;
    const own = kind === 'call' ? STORED_CALL.exec(text) : null;
    if (own) {
      out[at] = `${NAMESPACE}.${own[1]!.replace(/_/g, '.')}`;
      if (list[at - 1]?.text === '!') out.fill('', referenceStart(list, at), at);
    } else if (text.toUpperCase() === ANCHOR.toUpperCase()) {
      const close = list.findIndex((token, index) => index > at && token.text === ')');
      if (close < 0 || list[close - 1]!.kind !== 'cell' || referenceStart(list, close - 1) !== at + 2) return;
      out.fill('', at, at + 2);
      out[close] = '#';
    } else if (!/^_xlfn\.SINGLE$/i.test(text)) {
      // SINGLE has no spelling of its own but an "@" in front of an expression, so it keeps its stored one.
      out[at] = text.replace(HIDDEN_PREFIX, '');
    }
  });
  return `=${out.join('')}`;
}

/** Where the reference that ends at `at` starts: two tokens earlier if a sheet name stands in front of it. */
function referenceStart(list: readonly Token[], at: number): number {
  return list[at - 1]?.text === '!' && at >= 2 ? at - 2 : at;
}
