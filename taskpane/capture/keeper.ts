import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Host, HostError } from '../../src/excel/host';
import { onceAtATime } from '../store/onceatatime';
import { type Entry, isSettled, type JournalRecord } from './entry';
import type { Journal } from './journal';
import { answered, NoAnswer } from './keeper/answer';
import { isMissing, locate } from './keeper/locate';
import { writeEntry } from './keeper/write';

/**
 * Brings accepted readings into the workbook: each once, in the order in which they were accepted, as soon as the
 * host takes them. What it cannot write yet waits in the journal, over the end of the pane if need be.
 */
export interface Keeper {
  /** Entries that do not stand in the workbook yet, those in conflict among them. */
  readonly waiting: ReadonlySignal<readonly JournalRecord[]>;
  /** Why an entry is not written unasked; undefined for one that goes its way. */
  heldBack(entry: JournalRecord): HeldBack | undefined;
  /** What stands in the way just now, in words; empty when nothing does. */
  readonly trouble: ReadonlySignal<string>;
  /** @param isRepeat it was told before, and may have been written */
  take(entry: Entry, isRepeat: boolean): void;
  /** A person's answer to a conflict, to an entry that is held back, or to one whose sheet is gone. */
  decide(id: string, choice: 'mine' | 'theirs'): void;
  /** Calls back whenever something becomes of an entry. Returns what ends it. */
  onTold(listener: (record: JournalRecord) => void): () => void;
  /** Tries again now: something in the workbook has changed. */
  poke(): void;
  stop(): void;
}

/**
 * Read for another workbook (a copy bears the same ids, and must not take what is meant for the original), or for a
 * sheet that has been sealed since.
 */
type HeldBack = 'elsewhere' | 'sealed';

/** A host that is busy or has a cell open for editing sends no event when it is free again. */
export const RETRY_MS = 1000;
const RETRY_MOST_MS = 60_000;
/** A call open for so long is told to the person. */
const SLOW_MS = 1000;

const SLOW =
  'The spreadsheet has not answered yet. Readings are kept; is a cell being edited there? Press Enter or Escape in the sheet.';

/** @param isSealed whether the sheet of an id is known to bear a seal; read in effects, so it may follow a signal */
export function createKeeper(
  host: Host,
  journal: Journal,
  isSealed: (id: string) => boolean = () => false,
): Keeper {
  const here = host.facts().workbook;
  const trouble = signal('');
  const waiting = computed(() => journal.records.value.filter((record) => !isSettled(record)));
  const listeners = new Set<(record: JournalRecord) => void>();
  /** Sheets found by id; a fresh entry trusts its own name, so that it takes one round trip. */
  const found = new Map<string, string>();
  let absent = new Set<string>();
  let isStopped = false;
  /** Entries that were refused once: programs refuse what they did, and what they would do the next moment. */
  const doubted = new Set<string>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let delay = RETRY_MS;

  function tell(record: JournalRecord): void {
    journal.put(record);
    for (const listener of listeners) listener(record);
  }

  function heldBack({ entry, isAllowed }: JournalRecord): HeldBack | undefined {
    if (entry.workbook !== undefined && entry.workbook !== here) return 'elsewhere';
    return isAllowed !== true && isSealed(entry.run) ? 'sealed' : undefined;
  }

  function later(): void {
    clearTimeout(timer);
    if (isStopped) return;
    timer = setTimeout(() => void run(), delay);
  }

  /** A host that does not answer, or whose sheet is elsewhere, is asked less and less often. */
  function slowDown(): void {
    delay = Math.min(2 * delay, RETRY_MOST_MS);
  }

  function poke(): void {
    delay = RETRY_MS;
    void run();
  }

  /** The first entry that can be tried: its sheet is not known to be absent, and no older one wants its cell. */
  function next(): JournalRecord | undefined {
    const taken = new Set<string>();
    for (const record of waiting.peek()) {
      const cells = record.entry.writes.map(
        ({ name, row, column }) => `${record.entry.run} ${name} ${row} ${column}`,
      );
      const isFree = cells.every((cell) => !taken.has(cell));
      for (const cell of cells) taken.add(cell);
      const isDue = record.state === 'waiting' && !heldBack(record);
      if (isFree && isDue && !absent.has(record.entry.run)) return record;
    }
    return undefined;
  }

  const run = onceAtATime(async () => {
    if (isStopped) return;
    absent = new Set();
    let isBlocked = false;
    for (let record = next(); record && !isBlocked && !isStopped; record = next()) {
      isBlocked = !(await attempt(record));
    }
    if (!isBlocked)
      trouble.value = [...heldWords(waiting.peek(), heldBack), absentWords(absent, waiting.peek())]
        .join(' ')
        .trim();
    if (isBlocked || absent.size > 0) later();
    if (absent.size > 0) slowDown();
  });

  /** False if the host takes nothing just now. */
  async function attempt(record: JournalRecord): Promise<boolean> {
    const { entry } = record;
    const slow = setTimeout(() => {
      trouble.value = SLOW;
    }, SLOW_MS);
    try {
      if (record.isAttempted && !(await find(entry))) return true;
      const marked = { ...record, isAttempted: true };
      const sheet = found.get(entry.run) ?? entry.sheet;
      // Before the call: a pane that ends during it must not write blindly when it comes back.
      journal.put(marked);
      tell({ ...marked, ...(await writeEntry(host, sheet, record, poke)) });
      delay = RETRY_MS;
      return true;
    } catch (error) {
      return give(record, error);
    } finally {
      clearTimeout(slow);
    }
  }

  /** Looks where the entry's sheet is now; what cannot be found waits. */
  async function find(entry: Entry): Promise<boolean> {
    const place = await answered(locate(host, entry), poke);
    if ('sheet' in place) {
      found.set(entry.run, place.sheet);
      return true;
    }
    found.delete(entry.run);
    absent.add(entry.run);
    return false;
  }

  /** What a failed attempt means: false to wait for the host, true to go on with the others. */
  async function give(record: JournalRecord, error: unknown): Promise<boolean> {
    const isKnown = error instanceof HostError;
    if (isMissing(error)) {
      if (await isGone(record)) settle(record, (error as HostError).message);
      return true;
    }
    if (isKnown && (error.trouble === 'refused' || error.trouble === 'unavailable')) {
      settle(record, `${error.message} ${error.remedy}`);
      return true;
    }
    trouble.value = isKnown
      ? `${error.message} ${error.remedy}`
      : `Writing failed (${error instanceof Error ? error.message : String(error)}). It is tried again.`;
    const isPassing = isKnown && (error.trouble === 'busy' || error.trouble === 'editing');
    if (!isPassing || error instanceof NoAnswer) slowDown();
    return false;
  }

  /** An entry is refused when it was so twice: before the second time it is looked whether it stands there already. */
  function settle(record: JournalRecord, why: string): void {
    const { id } = record.entry;
    if (doubted.has(id)) tell(refused(record, why));
    else doubted.add(id);
  }

  /** A missing sheet waits; a name missing on a sheet that is there will not come back. */
  async function isGone({ entry }: JournalRecord): Promise<boolean> {
    const before = found.get(entry.run) ?? entry.sheet;
    try {
      return (await find(entry)) && found.get(entry.run) === before;
    } catch (error) {
      // Without an answer nothing can be said; the entry waits as it is.
      absent.add(entry.run);
      trouble.value = error instanceof HostError ? `${error.message} ${error.remedy}` : String(error);
      return false;
    }
  }

  return {
    waiting,
    trouble,
    heldBack,
    take: (entry, isRepeat) => {
      const known = journal.get(entry.id);
      // Also an entry that still waits is answered: the window then knows that it is in good hands.
      tell(known ?? { entry, state: 'waiting', isAttempted: isRepeat });
      poke();
    },
    decide: (id, choice) => {
      const record = journal.get(id);
      if (!record || isSettled(record)) return;
      if (choice === 'theirs') tell({ ...record, state: 'kept' });
      else if (record.held) {
        const writes = record.entry.writes.map((write, i) => ({ ...write, before: record.held![i]! }));
        tell({ ...record, entry: { ...record.entry, writes }, state: 'waiting' });
      } else {
        // It is looked at before it is written: it may stand there already.
        const entry = { ...record.entry, workbook: here };
        tell({ ...record, entry, isAttempted: true, isAllowed: true });
      }
      poke();
    },
    onTold: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    poke,
    stop: () => {
      isStopped = true;
      clearTimeout(timer);
      listeners.clear();
    },
  };
}

function refused(record: JournalRecord, why: string): JournalRecord {
  return { ...record, state: 'refused', why: why.slice(0, 500) };
}

/** Readings whose sheet is in another workbook, or deleted. */
function absentWords(absent: ReadonlySet<string>, waiting: readonly JournalRecord[]): string {
  const without = waiting.filter(({ entry }) => absent.has(entry.run));
  if (without.length === 0) return '';
  const names = [...new Set(without.map(({ entry }) => `\u201c${entry.sheet}\u201d`))].join(', ');
  return `${without.length === 1 ? 'One entry waits' : `${without.length} entries wait`} for ${names}, not in this workbook.`;
}

/** Readings that only a person can send on, in words. */
function heldWords(
  waiting: readonly JournalRecord[],
  heldBack: (record: JournalRecord) => HeldBack | undefined,
): string[] {
  const of = (why: HeldBack) => waiting.filter((record) => heldBack(record) === why);
  const sentence = (records: readonly JournalRecord[], one: string, many: string, rest: string) =>
    records.length === 0 ? [] : [`${records.length === 1 ? one : `${records.length} ${many}`} ${rest}`];
  return [
    ...sentence(
      of('elsewhere'),
      'One entry was made in another workbook',
      'entries were made in another workbook',
      'and waits for it: this one may be a copy.',
    ),
    ...sentence(of('sealed'), 'One entry waits', 'entries wait', 'for a sheet that is sealed.'),
  ];
}
