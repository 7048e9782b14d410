import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Host, HostError, type KnownSheet, type SheetReading, type Survey } from '../../src/excel/host';
import { onceAtATime } from './onceatatime';
import { type Trouble, troubleOf } from './trouble';

/** What the pane knows of the workbook; follows every change. */
export interface Workbook {
  readonly survey: ReadonlySignal<Survey | undefined>;
  readonly runs: ReadonlySignal<readonly KnownSheet[]>;
  /** The sheet in front, if it is sealed. */
  readonly sealedFront: ReadonlySignal<string | undefined>;
  /** Sheets that changed before the last look; undefined where it may be any. */
  touched(): ReadonlySet<string> | undefined;
  /** Sheet name of the run that is shown: the one picked, else the one in front, else the last one shown. */
  readonly shown: ReadonlySignal<string | undefined>;
  readonly reading: ReadonlySignal<SheetReading | undefined>;
  /** Why the run cannot be shown, or cannot be shown afresh just now. */
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  /** True while the host is busy and the reading shown may be a moment old. */
  readonly isWaiting: ReadonlySignal<boolean>;
  /** Shows one run whatever is in front; undefined follows the sheet in front again. */
  pick(sheet: string | undefined): void;
  /** Looks at the workbook now; resolves after a look that began no earlier than this call. */
  look(): Promise<void>;
  start(): Promise<void>;
  stop(): void;
}

/**
 * Changes within this time of the first are one look; those that come while one is under way are the next. The host has
 * gathered its bursts before (`following.ts`).
 */
export const SETTLE_MS = 5;
/** A host that is busy or has a cell open for editing sends no event when it is free again. */
export const RETRY_MS = 1000;

export function createWorkbook(host: Host): Workbook {
  const survey = signal<Survey | undefined>(undefined);
  const picked = signal<string | undefined>(undefined);
  const last = signal<string | undefined>(undefined);
  const reading = signal<SheetReading | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const isWaiting = signal(false);
  const runs = computed(() => survey.value?.sheets.filter(({ kind }) => kind === 'run') ?? []);
  const sealedFront = computed(
    () =>
      survey.value?.sheets.find(({ sheet, isSealed }) => isSealed && sheet === survey.value!.active)?.sheet,
  );
  const shown = computed(() => choose(runs.value, [picked.value, survey.value?.active, last.value]));

  let unwatch: (() => void) | undefined;
  let settling: ReturnType<typeof setTimeout> | undefined;
  let retrying: ReturnType<typeof setTimeout> | undefined;
  let isStopped = false;
  /** Sheets that changed since the last look began; undefined where it may be any. */
  let touched: Set<string> | undefined;
  let seen: ReadonlySet<string> | undefined;

  /** Changes that never cease put the look off no further. */
  function changed(sheets?: readonly string[]): void {
    if (isStopped) return;
    touched = sheets && touched && new Set([...touched, ...sheets]);
    settling ??= setTimeout(() => {
      settling = undefined;
      void lookSoon();
    }, SETTLE_MS);
  }

  function look(): Promise<void> {
    touched = undefined;
    return lookSoon();
  }

  const lookSoon = onceAtATime(async () => {
    clearTimeout(retrying);
    if (isStopped) return;
    const since = touched;
    touched = new Set();
    try {
      const surveyed = await host.survey();
      if (isStopped) return;
      seen = since;
      survey.value = surveyed;
      const sheet = shown.value;
      const isOld = since === undefined || reading.value?.sheet !== sheet || since.has(sheet!);
      const found = sheet === undefined ? undefined : isOld ? await host.read(sheet) : reading.value;
      if (isStopped) return;
      // Somebody may have picked another run meanwhile; its own look is then on its way.
      if (sheet !== shown.value) return;
      reading.value = found;
      last.value = sheet;
      trouble.value = undefined;
      isWaiting.value = false;
    } catch (error) {
      touched = undefined;
      if (isStopped) return;
      if (error instanceof HostError && (error.trouble === 'editing' || error.trouble === 'busy')) {
        isWaiting.value = true;
        retrying = setTimeout(look, RETRY_MS);
        return;
      }
      isWaiting.value = false;
      reading.value = undefined;
      trouble.value = troubleOf(error, 'Reading the workbook');
    }
  });

  return {
    survey,
    runs,
    sealedFront,
    touched: () => seen,
    shown,
    reading,
    trouble,
    isWaiting,
    look,
    pick: (sheet) => {
      picked.value = sheet;
      if (shown.value !== reading.value?.sheet) reading.value = undefined;
      void look();
    },
    start: async () => {
      await look();
      try {
        const stopWatching = await host.watch(changed);
        // Stopped while the host was still setting up its events.
        if (isStopped) stopWatching();
        else unwatch = stopWatching;
      } catch (error) {
        trouble.value = troubleOf(error, 'Following the workbook');
      }
    },
    stop: () => {
      isStopped = true;
      clearTimeout(settling);
      clearTimeout(retrying);
      unwatch?.();
      unwatch = undefined;
    },
  };
}

/** The first of the wanted sheets that is a run; else the first run; undefined if there is none. */
function choose(runs: readonly KnownSheet[], wanted: readonly (string | undefined)[]): string | undefined {
  return wanted.find((sheet) => runs.some((run) => run.sheet === sheet)) ?? runs[0]?.sheet;
}
