import { type ReadonlySignal, signal } from '@preact/signals';
import * as v from 'valibot';
import { byTime, ENTRY_VERSION, isSettled, type JournalRecord, RecordSchema } from './entry';
import type { Shelf } from './shelf';

/** Entries that survive the closing of window and pane until they stand in the workbook, and the last ones after. */
export interface Journal {
  /** In the order in which they were accepted. */
  readonly records: ReadonlySignal<readonly JournalRecord[]>;
  /** False when the browser keeps nothing: entries then last as long as this window. */
  readonly isKept: ReadonlySignal<boolean>;
  get(id: string): JournalRecord | undefined;
  put(record: JournalRecord): void;
  /** Takes in what another window has put into the same storage. */
  reload(): void;
}

/** Settled entries kept for undo; those that still wait are never dropped. */
export const SETTLED_MAX = 200;

/**
 * Each entry has a key of its own, so that two windows never write over each other's.
 * @param prefix with which the keys begin, e.g. the host's partition key and the journal's name
 */
export function createJournal(shelf: Shelf | undefined, prefix: string): Journal {
  const all = new Map<string, JournalRecord>();
  const records = signal<readonly JournalRecord[]>([]);
  const isKept = signal(shelf !== undefined);
  const keyOf = (id: string) => `${prefix}.${ENTRY_VERSION}.${id}`;
  const publish = () => {
    records.value = [...all.values()].sort(byTime);
  };
  const store = (work: (shelf: Shelf) => void) => {
    if (!shelf) return;
    try {
      work(shelf);
    } catch {
      // Full, or forbidden meanwhile: entries stay in memory, and `isKept` tells the person so.
      isKept.value = false;
    }
  };
  const load = () =>
    store((open) => {
      for (const key of keys(open, `${prefix}.${ENTRY_VERSION}.`)) {
        const record = parse(open.getItem(key));
        // In memory an entry is at least as far on, unless another window has settled it.
        const own = record && all.get(record.entry.id);
        if (record && (!own || (!isSettled(own) && isSettled(record)))) all.set(record.entry.id, record);
      }
    });
  const prune = () => {
    const settled = [...all.values()].filter(isSettled).sort(byTime);
    for (const { entry } of settled.slice(0, Math.max(0, settled.length - SETTLED_MAX))) {
      all.delete(entry.id);
      store((open) => open.removeItem(keyOf(entry.id)));
    }
  };
  load();
  publish();
  return {
    records,
    isKept,
    get: (id) => all.get(id),
    put: (record) => {
      all.set(record.entry.id, record);
      store((open) => open.setItem(keyOf(record.entry.id), JSON.stringify(record)));
      if (isSettled(record)) prune();
      publish();
    },
    reload: () => {
      load();
      publish();
    },
  };
}

function keys(shelf: Shelf, prefix: string): string[] {
  const all = Array.from({ length: shelf.length }, (_, i) => shelf.key(i) ?? '');
  return all.filter((key) => key.startsWith(prefix));
}

/** Text from the storage → a record; anything else, a newer layout for instance, is left where it is. */
function parse(text: string | null): JournalRecord | undefined {
  if (text === null) return undefined;
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    // Not ours, or cut off by a crash: nothing can be read out of it.
    return undefined;
  }
  const read = v.safeParse(RecordSchema, data);
  return read.success ? read.output : undefined;
}
