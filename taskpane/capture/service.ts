import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { type Host, HostError, type KnownSheet } from '../../src/excel/host';
import type { ChildEvents, Opening, WindowSize } from '../../src/excel/window';
import { onceAtATime } from '../store/onceatatime';
import type { Troubles } from '../store/trouble';
import type { Workbook } from '../store/workbook';
import type { JournalRecord } from './entry';
import { createJournal } from './journal';
import { createKeeper, type Keeper } from './keeper';
import { joinedLinks, type PaneLink, readToPane, type ToPane, type WindowLink } from './messages';
import type { Shelf } from './shelf';
import { isCaptured, taskOf } from './taskof';

/** Guided capture, as the pane has it: the window and its sheet, and the keeper that writes for it. */
export interface CaptureService {
  /** Sheets that readings can be taken for. */
  readonly targets: ReadonlySignal<readonly KnownSheet[]>;
  /** The one that is, or would be, captured. */
  readonly target: ReadonlySignal<KnownSheet | undefined>;
  readonly where: ReadonlySignal<'' | 'window' | 'pane'>;
  /** Why capture runs inside the pane. */
  readonly hint: ReadonlySignal<string>;
  /** For capture inside the pane: its way to the keeper. */
  readonly local: ReadonlySignal<PaneLink | undefined>;
  readonly keeper: Keeper;
  /** Begins the keys of what is kept in the browser. */
  readonly prefix: string;
  /** Whether readings that wait survive the closing of the pane. */
  readonly isKept: ReadonlySignal<boolean>;
  pick(sheet: string): void;
  open(): Promise<void>;
  /** Opens capture inside the pane, whatever windows there could be. */
  openHere(hint?: string): void;
  close(): void;
  start(): void;
  stop(): void;
}

export interface CaptureOptions {
  readonly shelf?: Shelf | undefined;
  /** Begins the keys of what is kept in the browser. */
  readonly prefix?: string;
  readonly openWindow?: (page: string, size: WindowSize, events: ChildEvents) => Promise<Opening>;
  readonly now?: () => number;
}

/** A window that is alive has told its own pane by then; other panes of the same browser keep off so long. */
export const GRACE_MS = 5000;

/** Per cent of the screen: about a phone's shape on a laptop. */
const SIZE: WindowSize = { width: 34, height: 84 };

const HINTS = {
  blocked: 'The window was not allowed, so capture runs here in the pane.',
  unavailable: 'This program cannot open a window for capture, so it runs here in the pane.',
  open: 'Another window of this add-in is open. Close it for a window of its own; meanwhile capture runs here.',
  untrusted:
    'The program does not trust the address of the window, so capture runs here in the pane. Whoever set the add-in up can help: the address must begin with https and stand in the manifest.',
  failed: 'The window did not open, so capture runs here in the pane.',
  lost: 'The window could not show its page, so capture runs here in the pane. Is there a connection to where the add-in comes from?',
} as const;

/** The program's own number is for a report. */
const coded = (words: string, code: number) => (code === 0 ? words : `${words} (${code})`);

export function createCaptureService(
  host: Host,
  workbook: Workbook,
  troubles: Troubles,
  { shelf, prefix = '', openWindow, now = Date.now }: CaptureOptions = {},
): CaptureService {
  const journal = createJournal(shelf, `${prefix}pane`);
  /** The window's own journal, where the browser shows both of them the same storage. */
  const outbox = createJournal(shelf, `${prefix}window`);
  const isSealed = (id: string) =>
    workbook.survey.value?.sheets.some((known) => known.id === id && known.isSealed) ?? false;
  const keeper = createKeeper(host, journal, isSealed);
  const where = signal<'' | 'window' | 'pane'>('');
  const hint = signal('');
  const local = signal<PaneLink | undefined>(undefined);
  /** A sheet chosen by hand, or the one that is, or was just, captured. */
  const picked = signal<KnownSheet | undefined>(undefined);
  const targets = computed(() => workbook.survey.value?.sheets.filter(({ kind }) => isCaptured(kind)) ?? []);
  const inFront = computed(() => workbook.survey.value?.active);
  const target = computed(() => {
    const all = targets.value;
    const wanted = picked.value;
    const kept =
      wanted &&
      (all.find(({ id, sheet }) => id === wanted.id && sheet === wanted.sheet) ??
        all.find(({ id }) => id === wanted.id));
    // While it is captured a sheet that vanished is not silently replaced by another one.
    if (kept || (wanted && where.value !== '')) return kept;
    return all.find(({ sheet }) => sheet === inFront.value) ?? all[0];
  });
  let link: WindowLink | undefined;
  let sent = '';
  let adopting: ReturnType<typeof setTimeout> | undefined;
  let stops: (() => void)[] = [];

  /** Reads the sheet and tells the window what has changed on it. */
  const look = onceAtATime(async () => {
    if (!link) return;
    const asOf = now();
    const known = target.peek();
    try {
      const found = known && (await taskOf(host, known));
      const task = found && { ...found, workbook: host.facts().workbook };
      const text = JSON.stringify(task ?? null);
      if (text !== sent) {
        sent = text;
        link?.send(
          task
            ? { kind: 'task', task, asOf }
            : {
                kind: 'no-task',
                why: 'There is no sheet for readings in this workbook: build one in the pane.',
              },
        );
      }
    } catch (error) {
      const isPassing =
        error instanceof HostError && (error.trouble === 'busy' || error.trouble === 'editing');
      const words = error instanceof HostError ? `${error.message} ${error.remedy}` : String(error);
      // A busy host is looked at again with the workbook's next look.
      if (!isPassing) link?.send({ kind: 'no-task', why: words });
    }
  });

  /** What a window accepted and could not tell, because it or the pane was closed. What is fresh may be told yet. */
  function adopt(): void {
    clearTimeout(adopting);
    outbox.reload();
    const waiting = outbox.records.peek().filter(({ state }) => state === 'waiting');
    const isFresh = ({ entry }: JournalRecord) => now() - entry.at < GRACE_MS;
    for (const record of waiting) if (!isFresh(record)) keeper.take(record.entry, true);
    if (waiting.some(isFresh)) adopting = setTimeout(adopt, GRACE_MS);
  }

  function serve(end: WindowLink): void {
    link = end;
    sent = '';
    end.listen((message: ToPane) => {
      if (message.kind === 'ready') {
        sent = '';
        void look();
        end.send({ kind: 'trouble', words: keeper.trouble.peek() });
      } else if (message.kind === 'take') keeper.take(message.entry, message.isRepeat);
      else if (message.kind === 'decide') keeper.decide(message.id, message.choice);
      else close();
    });
  }

  function ended(): void {
    link = undefined;
    where.value = '';
    hint.value = '';
    local.value = undefined;
    adopt();
  }

  function close(): void {
    link?.close();
    ended();
  }

  function openHere(words = ''): void {
    picked.value = target.peek();
    const ends = joinedLinks();
    serve(ends.pane);
    local.value = ends.window;
    hint.value = words;
    where.value = 'pane';
  }

  async function open(): Promise<void> {
    if (where.peek() !== '') return;
    // The sheet stays the same whichever is brought to the front meanwhile.
    picked.value = target.peek();
    if (!openWindow) {
      openHere(HINTS.unavailable);
      return;
    }
    let hear: (message: ToPane) => void = () => undefined;
    const attempt = await troubles.attempt('Opening the capture window', () =>
      openWindow('./capture.html', SIZE, {
        heard: (text) => {
          const message = readToPane(text);
          if (message) hear(message);
        },
        closed: ({ why, code }) => {
          ended();
          if (why === 'lost') openHere(coded(HINTS.lost, code));
        },
      }),
    );
    if (!attempt.ok) return;
    const opening = attempt.value;
    if (!opening.ok) {
      openHere(coded(HINTS[opening.why], opening.code));
      return;
    }
    const { window } = opening;
    serve({
      send: (message) => window.say(JSON.stringify(message)),
      listen: (listener) => {
        hear = listener;
      },
      close: () => window.close(),
    });
    where.value = 'window';
  }

  const hearStorage = () => {
    // Another pane of this browser may have written what this one was waiting with.
    journal.reload();
    // A live window tells by itself; this is for one whose pane was gone.
    if (!link) adopt();
  };

  return {
    targets,
    target,
    where,
    hint,
    local,
    keeper,
    prefix,
    isKept: journal.isKept,
    pick: (sheet) => {
      picked.value = targets.peek().find((known) => known.sheet === sheet);
      void look();
    },
    open,
    openHere,
    close,
    start: () => {
      stops = [
        keeper.onTold((record) => {
          if (record.state !== 'waiting' && outbox.get(record.entry.id)) outbox.put(record);
          link?.send({ kind: 'told', record, time: now() });
        }),
        effect(() => {
          const words = keeper.trouble.value;
          link?.send({ kind: 'trouble', words });
        }),
        effect(() => {
          const active = inFront.value;
          // Before it begins, a sheet for readings that is brought to the front, or built, is the one that is meant.
          const isTarget = targets.peek().some(({ sheet }) => sheet === active);
          if (isTarget && where.peek() === '') picked.value = undefined;
        }),
        effect(() => {
          if (!workbook.survey.value) return;
          keeper.poke();
          void look();
        }),
      ];
      globalThis.addEventListener?.('storage', hearStorage);
      adopt();
    },
    stop: () => {
      for (const end of stops) end();
      globalThis.removeEventListener?.('storage', hearStorage);
      clearTimeout(adopting);
      link?.close();
      link = undefined;
      keeper.stop();
    },
  };
}
