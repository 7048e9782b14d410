import { internalName, type Name, type Names, parseInternal } from './names';
import { sheetPrefix } from './reference';
import { type Token, tokenize } from './tokens';

/** What translation needs to know of the workbook's sheets. */
export interface SheetNames {
  idOf(sheet: string): string | undefined;
  nameOf(id: string): string;
}

/** The engine's stand-in for an argument left out (`LIGHT.X(a,,b)`), which it would hand over as 0. */
export const OMITTED = 'LIGHT.OMITTED';

/**
 * A formula as a person writes it on `sheet` → as the engine can compute it. `use` is told of every internal
 * name, so that it can be made known to the engine; `miss` of every word that could be a name and is none.
 */
export function encode(
  formula: string,
  sheet: string,
  names: Names,
  sheets: SheetNames,
  use: (name: Name, qualified: boolean) => void,
  miss: (word: string) => void = () => {},
): string {
  const tokens = tokenize(formula);
  let out = '';
  for (let at = 0; at < tokens.length; at++) {
    const token = tokens[at]!;
    const next = tokens[at + 1];
    if (token.kind === 'sheet' && next?.kind === 'name') {
      const owner = sheets.idOf(token.sheet);
      const name = owner === undefined ? undefined : names.resolve(next.text, owner);
      if (name && owner !== undefined) {
        const qualified = name.sheet === sheet;
        use(name, qualified);
        out += internalName(name, qualified);
        at++;
        continue;
      }
      // `Sheet!Word` without such a name: the word alone would mean another sheet's name.
      miss(next.text);
      out += token.text + next.text;
      at++;
      continue;
    }
    const name = token.kind === 'name' ? names.resolve(token.text, sheet) : undefined;
    if (name) use(name, false);
    else if (token.kind === 'name') miss(token.text);
    out += name ? internalName(name) : token.text;
  }
  return markOmitted(out);
}

/** The engine's formula → as a person on `sheet` wrote it. */
export function decode(formula: string, sheet: string, names: Names, sheets: SheetNames): string {
  return tokenize(formula)
    .map((token) => (token.kind === 'name' ? publicName(token.text, sheet, names, sheets) : token.text))
    .join('');
}

function publicName(text: string, sheet: string, names: Names, sheets: SheetNames): string {
  if (text === OMITTED) return '';
  const internal = parseInternal(text);
  const name = internal && names.bySerial(internal.serial);
  if (!internal || !name || !text.toLowerCase().startsWith(`${name.name.toLowerCase()}.`)) return text;
  const isElsewhere = name.sheet !== undefined && name.sheet !== sheet;
  return isElsewhere || internal.qualified ? sheetPrefix(sheets.nameOf(name.sheet!)) + name.name : name.name;
}

/** Inside calls of our own functions, gives every empty argument a name that stands for it. */
function markOmitted(formula: string): string {
  if (!/LIGHT\./i.test(formula)) return formula;
  const stack: boolean[] = [];
  const out: string[] = [];
  let previous = '';
  for (const { kind, text } of tokenize(formula) as readonly Token[]) {
    const isCall = kind === 'function';
    const isOurs = stack[stack.length - 1] === true;
    const opensBefore = previous === ',' || previous === 'call';
    const isEmptyCall = previous === 'call' && text === ')';
    if (isOurs && opensBefore && !isEmptyCall && (text === ',' || text === ')')) out.push(OMITTED);
    out.push(text);
    if (isCall) stack.push(/^LIGHT\./i.test(text));
    else if (text === '(') stack.push(false);
    else if (text === ')') stack.pop();
    if (isCall) previous = 'call';
    else if (text.trim() !== '') previous = text;
  }
  return out.join('');
}
