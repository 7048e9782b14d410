import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Entry, isSettled, type JournalRecord } from './entry';
import type { Journal } from './journal';
import type { PaneLink, ToWindow } from './messages';

/** The window's side of the way into the workbook: keeps every accepted entry until the pane says what became of it. */
export interface Outbox {
  readonly records: Journal['records'];
  /** Entries nobody has confirmed yet. */
  readonly unconfirmed: ReadonlySignal<readonly JournalRecord[]>;
  /** The pane has not answered for a while: it was closed, or the workbook was. */
  readonly isSilent: ReadonlySignal<boolean>;
  readonly isKept: Journal['isKept'];
  accept(entry: Entry): void;
  decide(id: string, choice: 'mine' | 'theirs'): void;
  /** Says that the window listens, again and again until the pane answers. */
  start(hear: (message: ToWindow) => void): void;
  stop(): void;
}

/** What nobody has confirmed is told again so often; the same entry told twice is written once. */
export const REPEAT_MS = 2000;
/** Without a word of the pane for so long although something is waiting, the person is told. */
const SILENT_MS = 5000;

export function createOutbox(link: PaneLink, journal: Journal, now: () => number = Date.now): Outbox {
  const isSilent = signal(false);
  const unconfirmed = computed(() => journal.records.value.filter((record) => !isSettled(record)));
  let isAnswered = false;
  let heardAt = now();
  let toldAt = now();
  let timer: ReturnType<typeof setInterval> | undefined;

  /** Entries of this window wait here as `waiting`; a conflict waits for a person, not for the pane. */
  const lost = () => unconfirmed.peek().filter(({ state }) => state === 'waiting');
  const repeat = () => {
    if (!isAnswered) link.send({ kind: 'ready' });
    else for (const { entry } of lost()) link.send({ kind: 'take', entry, isRepeat: true });
    const isExpecting = !isAnswered || lost().length > 0;
    if (!isExpecting) toldAt = now();
    isSilent.value = isExpecting && now() - Math.max(heardAt, toldAt) >= SILENT_MS;
  };

  return {
    records: journal.records,
    unconfirmed,
    isSilent,
    isKept: journal.isKept,
    accept: (entry) => {
      journal.put({ entry, state: 'waiting', isAttempted: false });
      if (lost().length === 1) toldAt = now();
      link.send({ kind: 'take', entry, isRepeat: false });
    },
    decide: (id, choice) => {
      const record = journal.get(id);
      if (record) journal.put({ ...record, state: choice === 'theirs' ? 'kept' : 'waiting' });
      link.send({ kind: 'decide', id, choice });
    },
    start: (hear) => {
      link.listen((message) => {
        heardAt = now();
        isSilent.value = false;
        if (!isAnswered && (message.kind === 'task' || message.kind === 'no-task')) {
          isAnswered = true;
          repeat();
        }
        if (message.kind === 'told') journal.put(message.record);
        hear(message);
      });
      link.send({ kind: 'ready' });
      timer = setInterval(repeat, REPEAT_MS);
    },
    stop: () => {
      clearInterval(timer);
      link.close();
    },
  };
}
