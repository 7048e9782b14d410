import { cellName, cellsOf, rectOf } from '../../sheets/address';
import { namesIn } from '../../sheets/inner';
import { hasAllNames } from '../../sheets/names/beside';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import { broken } from '../formula/normal';
import { ownAddress, type SheetView, valueAt } from '../view';
import { knownBeginnings, markOfName } from './known';
import { isLater, isLonger } from './methods';
import type { Renewed } from './renew';

/**
 * Names of a sheet of an earlier layout: all there that it must have, each of the size it has today, no two on one
 * cell that are on two today, and beside its own label.
 */
export function checkOlderNames({ older, plan }: Renewed): Finding[] {
  const { sheet, identity } = older;
  const own = new Map(sheet.names.map((name) => [name.name.toLowerCase(), name]));
  const taken = new Map<string, string>();
  const found: Finding[] = [];
  const say = (name: string, words: string, expected: string, came: string, at?: string) => {
    found.push({
      sheet: sheet.name,
      ...(at === undefined ? {} : { at }),
      kind: 'name',
      severity: 'error',
      message: `The name ${name} ${words}`,
      expected,
      found: came,
      remedy: 'new-sheet',
    });
  };
  const beginnings = beginningsOf(older);
  const texts = { before: textsOf(sheet.cells), today: textsOf(plan.cells) };
  const planned = hasAllNames(identity!) ? namesIn(plan) : plan.names;
  for (const { name, range } of planned) {
    const defined = own.get(name.toLowerCase());
    if (!defined) {
      if (!isLater(identity!.kind, identity!.version, name))
        say(name, 'is missing: formulas that use it cannot be computed.', name, 'no such name');
      continue;
    }
    const address = ownAddress(defined, sheet.name);
    if (address === undefined) {
      const form = broken(defined.refersTo);
      const words = form
        ? `was written as ${form.form}, as if it were in another workbook.`
        : 'does not point into its sheet.';
      say(name, words, form?.meant ?? 'a place on this sheet', defined.refersTo);
      continue;
    }
    const [now, then] = [rectOf(range), rectOf(address)];
    const isResized = isLonger(identity!.kind, identity!.version, name) && now.columns === then.columns;
    if (!isResized && (now.rows !== then.rows || now.columns !== then.columns)) {
      const size = ({ rows, columns }: { rows: number; columns: number }) => `${rows} × ${columns} cells`;
      say(name, 'does not cover what it should.', size(now), size(then), address);
      continue;
    }
    const [first] = cellsOf(address);
    const before = taken.get(first!);
    const isTwice = before !== undefined && firstOf(plan, before) !== cellsOf(range)[0];
    const label = labelOf(plan, range);
    const begins = beginnings.get(markOfName(name));
    if (label && !isBeside(older, texts, label, address))
      say(name, 'does not stand beside its label.', label.words, address, address);
    else if (begins && !begins.has(first!)) {
      const [place] = begins;
      say(name, 'does not stand where its layout has it.', place!, address, address);
    } else if (isTwice) {
      say(name, `points to the cell of ${before}.`, 'a cell of its own', address, address);
      say(before, `points to the cell of ${name}.`, 'a cell of its own', address, address);
    }
    taken.set(first!, name);
  }
  return found;
}

/** The cells in which a name may begin, by its mark, as far as other names tell. */
function beginningsOf(older: SheetView): Map<string, Set<string>> {
  const { kind, version } = older.identity!;
  const found = new Map<string, Set<string>>();
  for (const { at, marks } of knownBeginnings(`${kind} ${version}`, older))
    for (const mark of marks) found.set(mark, (found.get(mark) ?? new Set<string>()).add(at));
  return found;
}

function firstOf(plan: Plan, name: string): string | undefined {
  const range = namesIn(plan).find((each) => each.name === name)?.range;
  return range === undefined ? undefined : cellsOf(range)[0];
}

/** The words nearest at the left of a name, and how many columns away they are. */
interface Label {
  readonly words: string;
  readonly column: number;
  readonly left: number;
}

function labelOf({ cells }: Plan, range: string): Label | undefined {
  const { row, column } = rectOf(range);
  for (let at = column - 1; at >= 0; at--) {
    const { role, value } = cells[cellName(row, at)] ?? {};
    if (role === 'label' && typeof value === 'string') return { words: value, column: at, left: column - at };
  }
  return undefined;
}

/** Whether a name stands in the row of its label, as far as that label is on either sheet, once. */
function isBeside(
  older: SheetView,
  { before, today }: { readonly before: Texts; readonly today: Texts },
  { words, column, left }: Label,
  address: string,
): boolean {
  const place = rectOf(address);
  const there = place.column - left;
  const isThereOnce = before.get(inColumn(there, words)) === 1 && today.get(inColumn(column, words)) === 1;
  return !isThereOnce || valueAt(older, cellName(place.row, there)) === words;
}

/** How many cells of a column hold a text. */
type Texts = ReadonlyMap<string, number>;
const inColumn = (column: number, words: string) => `${column} ${words}`;

function textsOf(cells: Readonly<Record<string, { readonly value?: unknown }>>): Texts {
  const texts = new Map<string, number>();
  for (const [cell, { value }] of Object.entries(cells)) {
    if (typeof value !== 'string') continue;
    const key = inColumn(rectOf(cell).column, value);
    texts.set(key, (texts.get(key) ?? 0) + 1);
  }
  return texts;
}
