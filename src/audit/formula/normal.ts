import { withoutIntersection } from '../../sheets/intersection';
import { argumentsOf, type Token, tokens } from '../../sheets/tokens';
import { once } from '../once';

/** What stood before a reference when a host wrote it into the wrong book: `[1]`, `[2]!`, `Tool.xla!`. */
const FOREIGN = /(?:\[\d+\]!?|'?[^'!()\s,]*\.xlam?'?!)(?=_xldudf_|LIGHT[._]|[A-Za-z_'$])/gi;

/**
 * A formula in the one spelling we compare: capitals for functions, names and cells, no spaces but the operator,
 * no `$`, no `@` that says nothing, numbers in their shortest form, no mention of its own sheet, however the sheet is called now.
 *
 * @param called what another sheet is called, by its name in small letters; as it is named unless told otherwise
 */
export function normal(
  formula: string,
  ownSheet: string,
  called: (sheet: string) => string = (sheet) => sheet,
): string {
  if (!formula.includes('!')) return spellOnce(formula);
  const pieces = spellOnSheet(`${ownSheet}\n${formula}`);
  return pieces.map((piece) => (typeof piece === 'string' ? piece : called(piece.sheet))).join('');
}

/** Whether two formulas say the same on a sheet of this name. Most do so letter by letter. */
export function isSameFormula(a: string, b: string, ownSheet: string): boolean {
  return a === b || normal(a, ownSheet) === normal(b, ownSheet);
}

/** Text, or the name of another sheet in small letters. */
type Piece = string | { readonly sheet: string };

/** Formulas that mention no sheet are the same on every sheet of a kind. */
const spellOnce = once((formula) => spell(formula, '').join(''));
/** No sheet's name has a line end. */
const spellOnSheet = once((both) => {
  const end = both.indexOf('\n');
  return spell(both.slice(end + 1), both.slice(0, end));
});

function spell(formula: string, ownSheet: string): Piece[] {
  const all = tokens(formula.replace(/^=/, ''));
  const pieces = all.filter(({ kind }, at) => kind !== 'space' || isIntersection(all, at));
  const list = oldNames(withoutIntersection(pieces));
  const out: Piece[] = ['='];
  list.forEach(({ kind, text }, at) => {
    // FALSE and FALSE() are the same; one program writes the other.
    if (isTruth(list, at - 1) || isTruth(list, at - 2)) return;
    if (isSameEnd(list, at) || isSameEnd(list, at - 1)) return;
    const isPrefix = list[at + 1]?.text === '!';
    if (isPrefix && sheetNamed(text) === ownSheet.toLowerCase()) return;
    const before = list[at - 1]?.text;
    if (text === '!' && before !== undefined && sheetNamed(before) === ownSheet.toLowerCase()) return;
    if (isPrefix) out.push({ sheet: sheetNamed(text) });
    else if (kind === 'cell' || kind === 'lines') out.push(bare(text));
    else if (kind === 'call' || kind === 'word') out.push(text.toUpperCase());
    else if (kind === 'space') out.push(' ');
    else if (/^[0-9.]/.test(text)) out.push(String(Number(text)));
    else out.push(text);
  });
  return out;
}

/** Whether a space is the operator that two ranges have in common, and not only room: `E10 4` is not `E104`. */
function isIntersection(list: readonly Token[], at: number): boolean {
  const [before, after] = [list[at - 1], list[at + 1]];
  const ends = before && (before.kind !== 'other' || before.text === ')' || before.text === '}');
  const begins = after && (after.kind !== 'other' || after.text === '(' || after.text === '{');
  return Boolean(ends && begins);
}

/** A function that one program stores under its newer name with one argument more, as we write it. */
function oldNames(list: readonly Token[]): readonly Token[] {
  const at = list.findIndex(({ kind, text }) => kind === 'call' && /^HYPGEOM\.DIST$/i.test(text));
  if (at < 0) return list;
  const { spans, end } = argumentsOf(list, at);
  const last = spans[4]?.[0] ?? end;
  const isPlain = spans.length === 5 && /^(?:0|FALSE)$/i.test(list[last]?.text ?? '');
  const kept = isPlain ? list.slice(at + 1, last - 1) : list.slice(at + 1, end);
  const name: Token = { kind: 'call', text: isPlain ? 'HYPGEOMDIST' : 'HYPGEOM.DIST.' };
  return [...list.slice(0, at), name, ...kept, ...oldNames(list.slice(end))];
}

/** Whether here begins the second half of a range of one cell: `B2:B2` is `B2`. */
function isSameEnd(list: readonly Token[], at: number): boolean {
  const [before, end] = [list[at - 1], list[at + 1]];
  return list[at]?.text === ':' && before?.kind === 'cell' && bare(before.text) === bare(end?.text ?? '');
}

function bare(cell: string): string {
  return cell.replace(/\$/g, '').toUpperCase();
}

/** Whether a truth is called here as a function: its brackets say nothing. */
function isTruth(list: readonly Token[], at: number): boolean {
  const { kind, text } = list[at] ?? {};
  return kind === 'call' && /^(?:TRUE|FALSE)$/i.test(text!) && list[at + 2]?.text === ')';
}

/** The sheet that a piece of a formula names, in small letters: `'Anna''s run'` → `anna's run`. */
export function sheetNamed(token: string): string {
  const name = token.startsWith("'") ? token.slice(1, -1).replace(/''/g, "'") : token;
  return name.toLowerCase();
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
