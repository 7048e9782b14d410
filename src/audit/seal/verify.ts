import { type Book, EMPTY_SHEET } from '../../sheets/book';
import { PLAIN_ONLY } from '../../sheets/phrases/agree';
import { isWithoutAddIn, withoutAddIn } from '../formula/references';
import { isError } from '../formula/value';
import { inWords } from '../number';
import { cellAt, type SheetView, viewOf } from '../view';
import { mark } from './bytes';
import { entriesOf, placeOf } from './canonical';
import { type Entry, GROUPS } from './entry';
import { deletedSeal } from './lost';
import type { SealRecord, Signature } from './record';
import { bookMark, readHistory, readRegister, shortHash } from './register';
import type { Difference, SealReport } from './report';
import { hashesOf, isSealed, sealOf } from './seal';
import { isSignatureValid, type PublicKey, thumbprint } from './sign';
import type { Subtle } from './subtle';
import { toldOf } from './told';

export type { Difference, SealReport, SealState } from './report';

export interface VerifyOptions<Key> {
  readonly subtle: Subtle<Key>;
  /** The key the seal must be signed with; a signature by another is refused. */
  readonly expectedKey?: PublicKey;
}

/** Compares a sheet with its seal. */
export async function verify<Key>(
  book: Book,
  sheet: string,
  options: VerifyOptions<Key>,
): Promise<SealReport> {
  const found = book.sheets.find(({ name }) => name === sheet);
  const view = viewOf(found ?? { ...EMPTY_SHEET, name: sheet });
  const history = readHistory(view.sheet.names);
  const record = sealOf(view);
  const base = {
    sheet,
    differences: [],
    signature: 'none',
    reasons: [],
    history,
    isForgotten: false,
  } as const;
  if (!isSealed(view)) {
    const deleted = deletedSeal(book, view);
    return deleted === undefined
      ? { ...base, state: 'none' }
      : { ...base, state: 'deleted', reasons: [deleted] };
  }
  if (!record) return { ...base, state: 'unreadable', reasons: ['The seal itself is damaged.'] };
  if (record === 'newer') {
    return {
      ...base,
      state: 'unreadable',
      reasons: ['The seal was made by a newer version of this program.'],
    };
  }
  const registered = registeredAs(book, record);
  const reasons = [
    ...identityReasons(view, record),
    ...(registered === 'this' ? [] : [REGISTER_WORDS[registered]]),
  ];
  const { differences, entries } = compare(view, book, record);
  const hashes = await hashesOf(options.subtle, record, entries);
  const isLacking = differences.length > 0 && differences.every(({ isHost }) => isHost);
  const isSame = isLacking ? hashes.builtHash === record.builtHash : hashes.hash === record.hash;
  if (!isSame && (differences.length === 0 || isLacking)) {
    reasons.push('The contents do not give the hash of the seal, though no single entry can be named.');
  }
  const signed = await checkSignature(record, reasons, options);
  const isBroken = !isSame || reasons.length > 0 || signed.signature === 'refused';
  return {
    ...base,
    ...signed,
    record,
    state: isBroken ? 'broken' : isLacking ? 'not calculated' : 'holds',
    differences,
    reasons: [...reasons, ...signed.reasons],
    isForgotten: registered !== 'this' && registered !== 'older',
  };
}

function identityReasons({ identity }: SheetView, { kind, version, id }: SealRecord): string[] {
  if (identity?.kind === kind && identity.version === version && identity.id === id) return [];
  return ['The seal belongs to another sheet: its mark and that of this sheet differ.'];
}

/** What the workbook remembers of a seal. */
type Registered = 'this' | 'elsewhere' | 'damaged' | 'unknown' | 'older' | 'another';

const REGISTER_WORDS: Readonly<Record<Exclude<Registered, 'this'>, string>> = {
  elsewhere: 'The sheet was sealed in another workbook.',
  damaged: 'The workbook’s register of seals is damaged.',
  unknown: 'The workbook’s register does not know this seal.',
  older: 'This is an older seal: the sheet was reopened or sealed anew since.',
  another: 'The workbook’s register has another seal for this sheet.',
};

function registeredAs({ names }: Book, { book, id, sequence, hash }: SealRecord): Registered {
  if (bookMark(names) !== book) return 'elsewhere';
  const register = readRegister(names);
  if (!register) return 'damaged';
  const last = register.get(id);
  if (!last) return 'unknown';
  if (last.sequence === sequence && last.hash === shortHash(hash)) return 'this';
  return sequence < last.sequence || last.hash === '' ? 'older' : 'another';
}

interface Signed {
  readonly signature: SealReport['signature'];
  readonly signer?: string;
  readonly reasons: readonly string[];
}

async function checkSignature<Key>(
  record: SealRecord,
  broken: readonly string[],
  { subtle, expectedKey }: VerifyOptions<Key>,
): Promise<Signed> {
  const { signature } = record;
  const refused = (reason: string): Signed => ({ signature: 'refused', reasons: [reason] });
  if (!signature && expectedKey) return refused('The seal is not signed, though a signature was asked for.');
  if (!signature) return { signature: 'none', reasons: [] };
  const signed: SealRecord & { signature: Signature } = { ...record, signature };
  if (!(await isSignatureValid(subtle, signed))) {
    return refused('The signature does not fit the seal: one of the two was altered.');
  }
  if (expectedKey && (expectedKey.x !== signature.x || expectedKey.y !== signature.y)) {
    return refused('The seal is signed with another key than the one expected.');
  }
  // A true signature on a seal that belongs elsewhere says nothing about this sheet.
  if (broken.length > 0) return { signature: 'refused', reasons: [] };
  return { signature: 'valid', signer: await thumbprint(subtle, signature), reasons: [] };
}

/** Entries against marks; the entries come back with results taken to the sealed side of a rounding boundary. */
function compare(
  view: SheetView,
  book: Book,
  record: SealRecord,
): { differences: Difference[]; entries: Entry[] } {
  const differences: Difference[] = [];
  const entries: Entry[] = [];
  const seen = new Set<string>();
  const { marks } = record;
  const lacking = withoutAddIn(view);
  const told = toldOf(view, book);
  for (const entry of entriesOf(view, book, record)) {
    const { group, key, text } = entry;
    seen.add(`${group} ${key}`);
    const sealed = marks[group].get(key);
    const same = sealed && [text, ...entry.alternatives].find((each) => mark(each) === sealed);
    entries.push({ ...entry, text: same ?? text });
    if (same !== undefined) continue;
    differences.push({
      group,
      key,
      change: sealed ? 'changed' : 'added',
      now: (sealed && told(entry, sealed)) || nowText(entry),
      isHost: group === 'result' && sealed !== undefined && lacking.has(key) && isLackingAt(view, key),
    });
  }
  for (const group of GROUPS) {
    for (const key of marks[group].keys()) {
      if (seen.has(`${group} ${key}`)) continue;
      const now =
        group === 'cell' || group === 'result' ? inWords(cellAt(view, key)?.value ?? null) : 'nothing';
      differences.push({ group, key, change: 'removed', now, isHost: false });
    }
  }
  return { differences: differences.sort(inOrder), entries };
}

/** What cells beside a lacking result say of it: an agreement's, and those of an ageing sheet that point at it. */
const SAYS_SO: ReadonlySet<unknown> = new Set([PLAIN_ONLY, 'see left']);

/** A result that lacks says so: a number or a verdict in its place is another one, whatever it was computed from. */
function isLackingAt(view: SheetView, at: string): boolean {
  const value = cellAt(view, at)?.value ?? null;
  return value === null || SAYS_SO.has(value) || isError(value) || isWithoutAddIn(value);
}

function nowText({ text, group, key }: Entry): string {
  return text.slice(group.length + key.length + 2).replace(/\t/g, ', ');
}

function inOrder(a: Difference, b: Difference): number {
  const groups = GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group);
  if (groups !== 0 || a.group === 'name' || a.group === 'sheet') return groups;
  return placeOf(a.key) - placeOf(b.key);
}
