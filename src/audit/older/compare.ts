import { cellCount, cellsOf } from '../../sheets/address';
import type { CellValue } from '../../sheets/book';
import { namesIn } from '../../sheets/inner';
import { isComputed } from '../check/contents';
import type { Finding } from '../check/finding';
import { nodesOf } from '../formula/ast';
import { parseOnce } from '../formula/calculate';
import { isWithoutAddIn, withoutAddIn } from '../formula/references';
import { isError } from '../formula/value';
import { cellsNamed } from '../kinds/cells';
import { inWords, isSame } from '../number';
import { AREA_MAX, cellAt, isOwnSheet, type SheetView, sheetOf, valueAt } from '../view';
import { METHOD_CHANGES, type MethodChange } from './methods';
import type { Renewed } from './renew';

/** A figure that is not what today's program computes from the same entries. */
interface Difference {
  readonly name: string;
  readonly label: string;
  /** On the older sheet. */
  readonly at: string;
  /** On the new one. */
  readonly to: string;
  readonly then: CellValue;
  readonly now: CellValue;
  /** The changes of method that it follows from; none: the number is another. */
  readonly because: readonly MethodChange[];
}

/** All figures that differ, by the names that both layouts have. */
export function differencesOf(
  { older, anew, plan, places, book }: Renewed,
  changes: readonly MethodChange[] = METHOD_CHANGES,
  all: ReadonlyMap<string, Renewed> = new Map(),
): Difference[] {
  const because = reasons(
    all.size > 0 ? all : new Map([[older.sheet.name, { anew, older, places, plan, book } as Renewed]]),
    changes,
  );
  const seen = new Set<string>();
  return namesIn(plan).flatMap(({ name, comment }) => {
    const cells = cellsNamed(plan, name);
    return cells.flatMap((to, i): Difference[] => {
      const at = places.get(to);
      if (at === undefined || seen.has(to) || !isComputed(plan, to)) return [];
      seen.add(to);
      const [then, now] = [valueAt(older, at), valueAt(anew, to)];
      if (isSame(then, now)) return [];
      const called = cells.length === 1 ? name : `${name}[${i + 1}]`;
      return [{ name: called, label: comment, at, to, then, now, because: because(anew, to) }];
    });
  });
}

/** What a cell of a sheet built today follows from, of the changes of method, by its formula and those before it. */
export function reasons(
  sheets: ReadonlyMap<string, Renewed>,
  changes: readonly MethodChange[],
): (view: SheetView, at: string) => readonly MethodChange[] {
  if (changes.length === 0) return () => [];
  const known = new Map<SheetView, Map<string, readonly MethodChange[]>>();
  const changed = new Map<SheetView, ReadonlyMap<string, readonly MethodChange[]>>();
  const own = (view: SheetView, at: string): readonly MethodChange[] => {
    const renewed = sheets.get(view.sheet.name);
    if (renewed?.anew !== view) return [];
    const here = changed.get(view) ?? changedCells(renewed, changes);
    changed.set(view, here);
    return here.get(at) ?? [];
  };
  const reasonsOf = (view: SheetView, at: string): readonly MethodChange[] => {
    const found = known.get(view) ?? new Map<string, readonly MethodChange[]>();
    known.set(view, found);
    const before = found.get(at);
    if (before) return before;
    found.set(at, []);
    const all = new Set(own(view, at));
    const book = sheets.values().next().value!.book;
    for (const [from, cell] of precedents(view, at, book))
      for (const each of reasonsOf(from, cell)) all.add(each);
    const list = [...all];
    found.set(at, list);
    return list;
  };
  return reasonsOf;
}

/** The cells of a sheet built today that a change of method is about. */
function changedCells(
  { plan, older }: Pick<Renewed, 'plan' | 'older'>,
  changes: readonly MethodChange[],
): ReadonlyMap<string, readonly MethodChange[]> {
  const { kind, version } = older.identity!;
  const found = new Map<string, MethodChange[]>();
  for (const change of changes) {
    if (change.kind !== kind || version >= change.layout) continue;
    const cells = new Set(change.names.flatMap((name) => cellsNamed(plan, name)));
    for (const at of cells) found.set(at, [...(found.get(at) ?? []), change]);
  }
  return found;
}

/** Cells that a formula refers to, on its own sheet and on others. */
function precedents(view: SheetView, at: string, book: Renewed['book']): [SheetView, string][] {
  const formula = cellAt(view, at)?.formula;
  const node = formula === undefined ? undefined : parseOnce(formula);
  if (!node) return [];
  return [...nodesOf(node)].flatMap((part): [SheetView, string][] => {
    if (part.kind !== 'range' && part.kind !== 'name') return [];
    const from = isOwnSheet(view, part.sheet) ? view : sheetOf(book, part.sheet!);
    const area = part.kind === 'range' ? part.address : from?.places.get(part.name.toLowerCase())?.address;
    if (!from || area === undefined || cellCount(area) > AREA_MAX) return [];
    return cellsOf(area).map((cell) => [from, cell]);
  });
}

/**
 * Figures of an older sheet against what today's program computes from the same entries: a number that differs for no
 * reason is an error; those that a change of method explains are told together, as a note.
 */
export function checkRenewed(
  renewed: Renewed,
  all: ReadonlyMap<string, Renewed>,
  changes: readonly MethodChange[] = METHOD_CHANGES,
): Finding[] {
  const { older } = renewed;
  const sheet = older.sheet.name;
  const lacking = withoutAddIn(older);
  const methods = new Map<string, Difference[]>();
  const findings: Finding[] = [];
  for (const difference of differencesOf(renewed, changes, all)) {
    const { at, then, now, label, because } = difference;
    if (lacking.has(at) || isWithoutAddIn(then) || isError(then)) continue;
    if (because.length > 0 && !isAltered(renewed, difference)) {
      const words = because.map((change) => change.words).join(' ');
      methods.set(words, [...(methods.get(words) ?? []), difference]);
      continue;
    }
    findings.push({
      sheet,
      at,
      kind: 'recomputed',
      severity: 'error',
      message: `${label}: ${at} is not what follows from what was typed.`,
      expected: inWords(because.length > 0 ? valueAt(renewed.own(), at) : now),
      found: inWords(then),
      remedy: 'refresh',
    });
  }
  for (const [words, several] of methods) findings.push(methodFinding(sheet, words, several));
  return findings;
}

/**
 * Whether a figure is not what the sheet's own formulas make of the entries either: then no change of method explains
 * it. Formulas are held against those of their layout elsewhere; a function that computes otherwise by now tells nothing.
 */
export function isAltered(renewed: Renewed, { at, then, because }: Difference): boolean {
  if (because.some(({ isOfFunction }) => isOfFunction)) return false;
  return !isSame(valueAt(renewed.own(), at), then);
}

function methodFinding(sheet: string, words: string, several: readonly Difference[]): Finding {
  const [first, ...others] = [...several].sort((a, b) => weight(b) - weight(a));
  const { label, at, then, now } = first!;
  const more = others.length > 0 ? `, and ${others.length} more` : '';
  return {
    sheet,
    at,
    kind: 'method',
    severity: 'note',
    message: `The method has changed since the sheet was built. ${words} By today’s method ${label} is ${inWords(now)}${more}.`,
    expected: inWords(now),
    found: inWords(then),
    remedy: 'bring-up-to-date',
  };
}

/** Relative change of a number; a changed word counts most. */
function weight({ then, now }: Difference): number {
  if (typeof then !== 'number' || typeof now !== 'number') return Number.POSITIVE_INFINITY;
  return Math.abs(now - then) / Math.max(Math.abs(then), 1e-9);
}
