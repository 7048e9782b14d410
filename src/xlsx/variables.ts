import { argumentsOf, type Token } from '../sheets/tokens';

/**
 * Indexes of the tokens that are variables of LET or parameters of LAMBDA; a file stores them with `_xlpm.`
 * (`LET(x,1,x+1)` is stored `_xlfn.LET(_xlpm.x,1,_xlpm.x+1)`). Without the prefix Excel shows #NAME?.
 */
export function variableTokens(list: readonly Token[]): ReadonlySet<number> {
  const found = new Set<number>();
  list.forEach((token, start) => {
    const name = token.kind === 'call' ? token.text.toUpperCase() : '';
    if (name !== 'LET' && name !== 'LAMBDA') return;
    const { spans, end } = argumentsOf(list, start);
    // LET has a name at every other place, LAMBDA at every place, and both end with what they compute.
    const places = spans.slice(0, -1).filter((_, place) => name === 'LAMBDA' || place % 2 === 0);
    const names = new Set(places.map(([from, to]) => soleWord(list.slice(from, to))));
    for (let at = start + 1; at < end; at++) {
      const { kind, text } = list[at]!;
      if ((kind === 'word' || kind === 'call') && names.has(text.toLowerCase())) found.add(at);
    }
  });
  return found;
}

function soleWord(span: readonly Token[]): string | undefined {
  const rest = span.filter(({ kind }) => kind !== 'space');
  return rest.length === 1 && rest[0]!.kind === 'word' ? rest[0]!.text.toLowerCase() : undefined;
}
