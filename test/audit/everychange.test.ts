import { expect, it } from 'vitest';
import { checkSheet } from '../../src/audit/check/check';
import type { Finding, FindingKind } from '../../src/audit/check/finding';
import { verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import type { Book, BookSheet } from '../../src/sheets/book';
import { type Change, changesOf } from './changes';
import { batch, EXAMPLES } from './examples';
import { sealed } from './sealing';
import { measured, smallest, withSheet } from './sheets';

/*
 * Every change of one thing on a sealed sheet of each kind. Changes are made in groups of distinct cells, which
 * is harder, not easier: each must be told with its own cell and in its own way. Of results, whose findings may
 * come from what they rest on, there is one in a group; a group in which one is missed is taken apart, and each
 * of its changes made alone.
 */
const GROUP = 16;

/** How a check may tell a change: a result that is altered by hand is no longer what its formula gives. */
const KINDS: Readonly<Record<Change['what'], readonly FindingKind[]>> = {
  result: ['stale', 'recomputed', 'disagree'],
  value: ['text', 'reading', 'draw'],
  formula: ['formula', 'constant'],
  removed: ['constant', 'text', 'draw'],
  added: ['added', 'text', 'draw'],
  format: ['format'],
  lock: ['lock'],
  rule: ['validation'],
  name: ['name'],
  protection: ['protection'],
};

function tells({ key, what }: Change, { at, message, kind }: Finding): boolean {
  if (!KINDS[what].includes(kind)) return false;
  if (what === 'name') return message.includes(` ${key} `);
  return what === 'protection' || (at !== undefined && cellsOf(at).includes(key));
}

/** A check knows no earlier state: another typed value, or none, is as good as the first. */
function isTypedAnew({ what, key }: Change, { cells }: BookSheet): boolean {
  return ['value', 'removed', 'added'].includes(what) && cells[key]?.style?.locked === false;
}

interface Missed {
  readonly seal: readonly Change[];
  readonly check: readonly Change[];
}

class Trial {
  private readonly sheet: BookSheet;
  private readonly before: ReadonlySet<string>;

  constructor(
    private readonly book: Book,
    private readonly place: number,
  ) {
    this.sheet = book.sheets[place]!;
    this.before = new Set(checkSheet(viewOf(this.sheet), book).map((finding) => JSON.stringify(finding)));
  }

  async missed(group: readonly Change[]): Promise<Missed> {
    const found = await this.attempt(group);
    if (group.length === 1 || found.seal.length + found.check.length === 0) return found;
    const alone: Missed[] = [];
    for (const change of group) alone.push(await this.attempt([change]));
    return { seal: alone.flatMap(({ seal }) => seal), check: alone.flatMap(({ check }) => check) };
  }

  private async attempt(group: readonly Change[]): Promise<Missed> {
    const changed = group.reduce((sheet, { apply }) => apply(sheet), this.sheet);
    const book = withSheet(this.book, this.place, () => changed);
    const report = await verify(book, changed.name, { subtle: crypto.subtle });
    const differing = new Set(report.state === 'broken' ? report.differences.map(({ key }) => key) : []);
    const findings = checkSheet(viewOf(changed), book).filter(
      (finding) => !this.before.has(JSON.stringify(finding)),
    );
    return {
      seal: group.filter(({ key }) => !differing.has(key)),
      check: group.filter(
        (change) => !isTypedAnew(change, this.sheet) && !findings.some((finding) => tells(change, finding)),
      ),
    };
  }
}

/** Groups of changes of distinct cells, with at most one result, one name and one rule in each. */
function grouped(changes: readonly Change[]): Change[][] {
  const groups: { changes: Change[]; keys: Set<string>; alone: Set<string> }[] = [];
  let first = 0;
  for (const change of changes) {
    const { key, what } = change;
    const lonely = ['result', 'name', 'rule', 'protection'].includes(what) ? what : '';
    let at = first;
    while (
      groups[at] &&
      (groups[at]!.keys.has(key) || groups[at]!.alone.has(lonely) || groups[at]!.changes.length >= GROUP)
    )
      at++;
    const group = groups[at] ?? { changes: [], keys: new Set<string>(), alone: new Set<string>() };
    groups[at] = group;
    group.changes.push(change);
    group.keys.add(key);
    if (lonely) group.alone.add(lonely);
    while (groups[first] && groups[first]!.changes.length >= GROUP) first++;
  }
  return groups.map((group) => group.changes);
}

const CASES: readonly (readonly [kind: string, make: () => Book, each: number])[] = [
  ['run, the smallest', smallest, 1],
  ['run, tiled colours and all there is, every 20th change', () => measured(6), 20],
  ['batch of 20 units, every 7th change', () => batch(20), 7],
  ...Object.entries(EXAMPLES).map(([kind, make]) => [kind, make, 1] as const),
];

it.each(CASES)(
  'every change of one thing on a sealed sheet is found, with the right cell: %s',
  async (_, make, each) => {
    const plain = make();
    const place = plain.sheets.length - 1;
    const book = await sealed(plain, place);
    const sheet = book.sheets[place]!;
    expect((await verify(book, sheet.name, { subtle: crypto.subtle })).state).toBe('holds');
    const trial = new Trial(book, place);
    const changes = [...changesOf(sheet)].filter((_change, i) => i % each === 0);
    const count: Record<string, { made: number; bySeal: number; byCheck: number; typed: number }> = {};
    for (const change of changes) {
      count[change.what] ??= { made: 0, bySeal: 0, byCheck: 0, typed: 0 };
      const line = count[change.what]!;
      line.made++;
      line.bySeal++;
      if (isTypedAnew(change, sheet)) line.typed++;
      else line.byCheck++;
    }
    const missed: string[] = [];
    for (const group of grouped(changes)) {
      const { seal, check } = await trial.missed(group);
      for (const { what, key } of seal) {
        count[what]!.bySeal--;
        missed.push(`seal: ${what} ${key}`);
      }
      for (const { what, key } of check) {
        count[what]!.byCheck--;
        missed.push(`check: ${what} ${key}`);
      }
    }
    console.table(count);
    expect(missed).toEqual([]);
    expect(changes.length).toBeGreaterThan(100);
  },
  240_000,
);
