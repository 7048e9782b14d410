import { contains, rectOf } from '../../sheets/address';
import type { BookCell, Validation } from '../../sheets/book';
import { ruleKey } from '../check/rules';
import { normal } from '../formula/normal';
import { relative } from '../formula/relative';
import { once } from '../once';
import { mark } from '../seal/bytes';
import type { SheetView } from '../view';
import known from './known.json' with { type: 'json' };
import { type Distances, type FilledPlace, filledPlaces } from './places';

/*
 * Formulas, input rules and fixed words and numbers that sheets of earlier layouts are known to have, as marks of 24
 * bits: those of the frozen workbooks (test/frozen), which the programs of their time made. One that is neither among
 * them nor what today's plan has in its place was not built.
 */

interface Marks {
  readonly formulas: string;
  readonly rules: string;
  readonly words: string;
  /** Cells without a name, as far from one; of layouts that are not today's. */
  readonly places?: Distances;
  /** Names, as far from others. */
  readonly names?: Distances;
}
const TABLE = known as unknown as Readonly<Record<string, Marks>>;
const CHARACTERS = 4;

/** Whether a layout is known to have a formula that stands in a cell; undefined where the layout has no frozen files. */
export function isKnownFormula(
  layout: string,
  formula: string,
  at: string,
  sheet: string,
): boolean | undefined {
  return setOf(TABLE[layout]?.formulas)?.has(markOf(formula, at, sheet));
}

/** Whether a mark is that of a formula of a layout. */
export function isFormulaMark(layout: string, mark: string): boolean {
  return setOf(TABLE[layout]?.formulas)?.has(mark) === true;
}

/** Whether a layout is known to have an input rule on the cells of a name. */
export function isKnownRule(layout: string, view: SheetView, validation: Validation): boolean {
  return setOf(TABLE[layout]?.rules)?.has(markOfRule(view, validation)) === true;
}

/** Whether a layout is known to have a fixed text or number. */
export function isKnownWord(layout: string, word: string | number | boolean): boolean {
  return setOf(TABLE[layout]?.words)?.has(markOfWord(word)) === true;
}

function markOfWord(word: string | number | boolean): string {
  return mark(`${typeof word} ${word}`);
}

/** The cells without a name that a layout is known to fill and today's plan does not tell of. */
export function knownPlaces(layout: string, view: SheetView): FilledPlace[] {
  return filledPlaces(view, TABLE[layout]?.places ?? {});
}

/** Where names of a layout are known to begin, by the mark of the name. */
export function knownBeginnings(layout: string, view: SheetView): FilledPlace[] {
  return filledPlaces(view, TABLE[layout]?.names ?? {});
}

/** The mark of a name. */
export function markOfName(name: string): string {
  return mark(`name ${name.toLowerCase()}`);
}

/** The mark of what a cell was built with: its formula, or its fixed word. */
export function markOfCell({ formula, value }: BookCell, at: string, sheet: string): string | undefined {
  if (formula !== undefined) return markOf(formula, at, sheet);
  return value === null || value === '' || typeof value === 'object' ? undefined : markOfWord(value);
}

/** The mark of an input rule and of the names that its first cell bears. */
export function markOfRule({ places }: SheetView, { range, rule, refusal }: Validation): string {
  const [first = ''] = range.split(':');
  const rect = rectOf(first);
  const names = [...places.values()].flatMap(({ name, address }) =>
    contains(rectOf(address), rect) ? [name] : [],
  );
  return mark(`${names.sort().join(' ')} ${refusal.style} ${ruleKey(rule, first)}`);
}

/**
 * The mark of a formula without regard to where it stands, to what other sheets are called, and to where on them it
 * leads: a sheet may be linked to one of another layout, which has the same figures elsewhere. Whether it is linked to
 * the right one shows in its value.
 */
function markOf(formula: string, at: string, sheet: string): string {
  const spelt = normal(formula, sheet, () => '#');
  return markOnce(`${at} ${spelt.replace(ELSEWHERE, '#!')}`);
}
const ELSEWHERE = /#!\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?/g;

const setOf = (marks: string | undefined) => (marks === undefined ? undefined : setOnce(marks));
const setOnce = once(
  (marks): ReadonlySet<string> => new Set(marks.match(new RegExp(`.{${CHARACTERS}}`, 'g'))),
  64,
);

const markOnce = once((both): string => {
  const [at = ''] = both.split(' ', 1);
  return mark(relative(both.slice(at.length + 1), at));
});
