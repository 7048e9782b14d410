import { tokens } from '../../sheets/tokens';
import { once } from '../once';

/** What stood before a reference when a host wrote it into the wrong book: `[1]`, `[2]!`, `Tool.xla!`. */
const FOREIGN = /(?:\[\d+\]!?|'?[^'!()\s,]*\.xlam?'?!)(?=_xldudf_|LIGHT[._]|[A-Za-z_'$])/gi;

/**
 * A formula in the one spelling we compare: capitals for functions, names and cells, no spaces between pieces,
 * no `$`, numbers in their shortest form, no mention of its own sheet, however the sheet is called now.
 */
export function normal(formula: string, ownSheet: string): string {
  return formula.includes('!') ? spellOnSheet(`${ownSheet}\n${formula}`) : spellOnce(formula);
}

/** Formulas that mention no sheet are the same on every sheet of a kind. */
const spellOnce = once((formula) => spell(formula, ''));
/** No sheet's name has a line end. */
const spellOnSheet = once((both) => {
  const end = both.indexOf('\n');
  return spell(both.slice(end + 1), both.slice(0, end));
});

function spell(formula: string, ownSheet: string): string {
  const list = tokens(formula.replace(/^=/, '')).filter(({ kind }) => kind !== 'space');
  const out: string[] = [];
  list.forEach(({ kind, text }, at) => {
    const isPrefix = list[at + 1]?.text === '!';
    if (isPrefix && sheetNamed(text) === ownSheet.toLowerCase()) return;
    const before = list[at - 1]?.text;
    if (text === '!' && before !== undefined && sheetNamed(before) === ownSheet.toLowerCase()) return;
    if (isPrefix) out.push(sheetNamed(text));
    else if (kind === 'cell' || kind === 'lines') out.push(text.replace(/\$/g, '').toUpperCase());
    else if (kind === 'call' || kind === 'word') out.push(text.toUpperCase());
    else if (/^[0-9.]/.test(text)) out.push(String(Number(text)));
    else out.push(text);
  });
  return `=${out.join('')}`;
}

function sheetNamed(token: string): string {
  const bare = token.startsWith("'") ? token.slice(1, -1).replace(/''/g, "'") : token;
  return bare.toLowerCase();
}

/** Excel's limit for a formula, in characters; beyond it nothing is looked for. */
const LENGTH = 8192;

/** How a host broke a formula, if it did: the form found and the formula as it was meant. */
export interface Broken {
  readonly form: string;
  readonly meant: string;
}

/**
 * Recognises forms that hosts leave behind: `[2]!_xldudf_LIGHT_OUTPUT(…)` or `Tool.xla!_xldudf_…` where the
 * add-in was missing, `[1]Run!$A$1` in names after a first install, a stored name that shows.
 */
export function broken(formula: string): Broken | undefined {
  if (formula.length > LENGTH || !/_xldudf_|\[\d/i.test(formula)) return undefined;
  const form = /(?:\[\d+\]!?|'?[^'!()\s,]*\.xlam?'?!)?_xldudf_[A-Za-z0-9_.]*|\[\d+\]/i.exec(formula)?.[0];
  if (form === undefined) return undefined;
  const meant = formula
    .replace(FOREIGN, '')
    .replace(/'\[\d+\]/g, "'")
    .replace(/_xldudf_LIGHT_([A-Za-z0-9_]+)/gi, (_, id: string) => `LIGHT.${id.replace(/_/g, '.')}`);
  return { form, meant };
}
