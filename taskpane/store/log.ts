import { type ReadonlySignal, signal } from '@preact/signals';
import { type Host, HostError } from '../../src/excel/host';
import type { LogDeed, LogLine } from '../../src/sheets/log';
import type { Preferences } from '../preferences';
import type { Author } from './author';

/** The workbook's log. A step tells in one line what it did: `log.note('built', sheet)`. */
export interface Log {
  /** Lines that the program has not taken yet. */
  readonly waiting: ReadonlySignal<readonly LogLine[]>;
  /** Why they wait. */
  readonly trouble: ReadonlySignal<string>;
  /** Counts the lines written since the pane was opened. */
  readonly written: ReadonlySignal<number>;
  /** Whether the tool keeps a log at all. */
  readonly isKept: ReadonlySignal<boolean>;
  keep(isKept: boolean): void;
  /**
   * Writes down what was done, to which sheet (empty: the workbook). Never fails: what the program does not take
   * now is written with the next line. Whoever needs the line in the workbook waits for the promise.
   */
  note(what: LogDeed, sheet: string, detail?: string): Promise<void>;
  /** Tries again to write what waits. */
  flush(): Promise<void>;
  recall(): Promise<void>;
}

const KEPT = 'log';

export function createLog(host: Host, author: Author, preferences: Preferences, makeId: () => string): Log {
  const waiting = signal<readonly LogLine[]>([]);
  const trouble = signal('');
  const written = signal(0);
  const isKept = signal(true);
  /** One write at a time, so that lines stand in the order of what was done. */
  let current: Promise<void> | undefined;

  async function write(): Promise<void> {
    while (waiting.peek().length > 0) {
      const lines = waiting.peek();
      try {
        await host.appendLog(lines, makeId());
      } catch (error) {
        trouble.value =
          error instanceof HostError
            ? `${error.message} ${error.remedy}`
            : `Writing failed: ${String(error)}`;
        break;
      }
      waiting.value = waiting.peek().slice(lines.length);
      written.value += lines.length;
      trouble.value = '';
    }
    // At once, not when somebody hears of the end: a line that comes in between begins a write of its own.
    current = undefined;
  }

  async function flush(): Promise<void> {
    if (waiting.peek().length > 0) current ??= write();
    await current;
  }

  return {
    waiting,
    trouble,
    written,
    isKept,
    keep: (on) => {
      isKept.value = on;
      void preferences.set(KEPT, on);
    },
    note: async (what, sheet, detail = '') => {
      if (!isKept.peek()) return;
      waiting.value = [...waiting.peek(), { ...author.moment(), what, sheet, detail }];
      await flush();
    },
    flush,
    recall: async () => {
      const kept = await preferences.get(KEPT);
      if (kept === false) isKept.value = false;
    },
  };
}
