import { checkSheet } from '../../src/audit/check/check';
import type { Finding, FindingKind } from '../../src/audit/check/finding';
import { referencesOf } from '../../src/audit/formula/references';
import { verify } from '../../src/audit/seal/verify';
import { isOlder } from '../../src/audit/today';
import { viewOf } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import type { Book, BookSheet } from '../../src/sheets/book';
import { type Change, changed } from './changes';
import { withSheet } from './sheets';

/*
 * Every change of one thing on a sealed sheet of each kind. Changes are made in groups of distinct cells, which
 * is harder, not easier: each must be told by a finding that tells no other of its group. Results, whose findings
 * may come from what they rest on, go with no change of a value and with no result that follows from them. A group
 * in which one is missed is halved until the one is alone.
 */
const GROUP = 64;

/** How a check may tell a change: a result that is altered by hand is no longer what its formula gives. */
const KINDS: Readonly<Record<Change['what'], readonly FindingKind[]>> = {
  result: ['stale', 'recomputed', 'disagree'],
  value: ['text', 'reading', 'draw', 'stamp'],
  formula: ['formula', 'constant'],
  removed: ['constant', 'text', 'draw'],
  added: ['added', 'text', 'draw', 'stamp'],
  format: ['format'],
  lock: ['lock'],
  rule: ['validation'],
  name: ['name'],
  protection: ['protection'],
};

/** Of a sheet of before nobody knows whether its layout had a formula, a word or nothing where another thing stands. */
const OLDER: Readonly<Partial<Record<Change['what'], readonly FindingKind[]>>> = {
  value: ['constant', 'added'],
  formula: ['added'],
};

/** Of results among others: two of them that should be equal are told to disagree whichever of them is altered. */
const OWN: ReadonlySet<FindingKind> = new Set(['stale', 'recomputed']);

/** Changes after which every result is still what its formula gives. */
const STILL: ReadonlySet<Change['what']> = new Set(['formula', 'format', 'lock', 'rule', 'protection']);

/** The changes that are told, each by a finding that can be of no other. */
function toldOf(group: readonly Change[], findings: readonly Finding[], isOld: boolean): Set<Change> {
  const told = new Set<Change>();
  for (const finding of findings) {
    const cells = new Set(finding.at === undefined ? [] : cellsOf(finding.at));
    const meant = group.filter(
      ({ key, what }) =>
        (KINDS[what].includes(finding.kind) || (isOld && OLDER[what]?.includes(finding.kind))) &&
        (what !== 'result' || group.length === 1 || OWN.has(finding.kind)) &&
        (what === 'name'
          ? finding.message.startsWith(`The name ${key} `)
          : what === 'protection' || cells.has(key)),
    );
    if (meant.length === 1) told.add(meant[0]!);
  }
  return told;
}

/** A check knows no earlier state: another typed value, or none, is as good as the first. */
export function isTypedAnew({ what, key }: Change, { cells }: BookSheet): boolean {
  return ['value', 'removed', 'added'].includes(what) && cells[key]?.style?.locked === false;
}

interface Missed {
  readonly seal: readonly Change[];
  readonly check: readonly Change[];
}

export class Trial {
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
    const half = Math.ceil(group.length / 2);
    const [first, second] = [await this.missed(group.slice(0, half)), await this.missed(group.slice(half))];
    return { seal: [...first.seal, ...second.seal], check: [...first.check, ...second.check] };
  }

  private async attempt(group: readonly Change[]): Promise<Missed> {
    const sheet = changed(this.sheet, group);
    const book = withSheet(this.book, this.place, () => sheet);
    const report = await verify(book, sheet.name, { subtle: crypto.subtle });
    const differing = new Set(report.state === 'broken' ? report.differences.map(({ key }) => key) : []);
    const findings = checkSheet(viewOf(sheet), book).filter(
      (finding) => !this.before.has(JSON.stringify(finding)),
    );
    const told = toldOf(group, findings, isOlder(viewOf(this.sheet)));
    return {
      seal: group.filter(({ key }) => !differing.has(key)),
      check: group.filter((change) => !isTypedAnew(change, this.sheet) && !told.has(change)),
    };
  }
}

/** How many formulas a result lies above what is typed: results as far up as each other do not follow from each other. */
function depthsOf(sheet: BookSheet): (at: string) => number {
  const view = viewOf(sheet);
  const formulas = new Map<string, string>();
  for (const { formula, spill, at } of Object.entries(sheet.cells).map(([at, cell]) => ({ at, ...cell }))) {
    if (formula !== undefined) for (const each of spill ? cellsOf(spill) : [at]) formulas.set(each, formula);
  }
  const known = new Map<string, number>();
  const depthOf = (at: string): number => {
    const formula = formulas.get(at);
    if (formula === undefined) return 0;
    let depth = known.get(at) ?? 0;
    if (depth > 0) return depth;
    for (const area of referencesOf(view, formula))
      for (const from of cellsOf(area)) depth = Math.max(depth, depthOf(from));
    known.set(at, depth + 1);
    return depth + 1;
  };
  return depthOf;
}

/** Groups of changes of distinct cells; results with results of their depth and with what moves none of them. */
export function grouped(changes: readonly Change[], sheet: BookSheet): Change[][] {
  const depthOf = depthsOf(sheet);
  const moving = (change: Change) =>
    STILL.has(change.what) ? '' : change.what === 'result' ? `result ${depthOf(change.key)}` : 'value';
  const groups: { changes: Change[]; keys: Set<string>; moves: string }[] = [];
  const put = (change: Change, moves: string) => {
    const fits = groups.find(
      (each) =>
        each.changes.length < GROUP && !each.keys.has(change.key) && (moves === '' || each.moves === moves),
    );
    const group = fits ?? { changes: [], keys: new Set<string>(), moves };
    if (!fits) groups.push(group);
    group.changes.push(change);
    group.keys.add(change.key);
  };
  const marked = changes.map((change) => ({ change, moves: moving(change) }));
  for (const { change, moves } of marked) if (moves !== '') put(change, moves);
  for (const { change, moves } of marked) if (moves === '') put(change, moves);
  return groups.map((group) => group.changes);
}
