import { computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { KnownSheet } from '../../src/excel/host';
import type { SheetKind } from '../../src/sheets/plan';
import type { Workbook } from './workbook';

/** The page that shows the sheet in front. */
export const SHEET_PAGE = 'sheet';

/** Which sheet the pane shows: the one in front, but never another one under the hands of somebody who types. */
export interface Front {
  /** Undefined where the sheet in front is not one of ours. */
  readonly sheet: ReadonlySignal<KnownSheet | undefined>;
  /** Name of the sheet that came to the front while somebody typed here about another one. */
  readonly other: ReadonlySignal<string | undefined>;
  /** What the deed came to that led to the sheet: "Built the sheet …". */
  readonly arrival: ReadonlySignal<string>;
  /** Whether a sheet of a kind is the one that is looked at. */
  isOf(kind: SheetKind): boolean;
  /** Somebody types about the sheet that is shown. */
  hold(): void;
  /** What was typed is done with, if the sheet is still in front. */
  release(): void;
  /** Shows what is in front, whatever is being typed. */
  follow(): void;
  /** Opens the page of the sheet in front, with words on how one came there. */
  arrive(words: string): void;
  stop(): void;
}

export function createFront(workbook: Workbook, page: Signal<string>): Front {
  const { survey } = workbook;
  const held = signal<KnownSheet | undefined>(undefined);
  const arrival = signal('');
  const inFront = computed(() => survey.value?.sheets.find(({ sheet }) => sheet === survey.value?.active));
  // It may be renamed meanwhile, or deleted.
  const kept = computed(() => {
    const wanted = held.value;
    if (!wanted) return undefined;
    const same = survey.value?.sheets.filter(({ id }) => id === wanted.id) ?? [];
    return same.find(({ sheet }) => sheet === wanted.sheet) ?? same[0];
  });
  const sheet = computed(() => kept.value ?? inFront.value);
  const isElsewhere = computed(() => kept.value !== undefined && kept.value.sheet !== survey.value?.active);
  let pinned: string | undefined;
  const stops = [
    // What was said of one sheet is not said of the next, and nothing is held for a page that is left.
    effect(() => {
      if (page.value === SHEET_PAGE) return;
      held.value = undefined;
      arrival.value = '';
    }),
    effect(() => {
      const run = isElsewhere.value && kept.value?.kind === 'run' ? kept.value.sheet : undefined;
      if (run === pinned) return;
      pinned = run;
      workbook.pick(run);
    }),
  ];
  return {
    sheet,
    other: computed(() => (isElsewhere.value ? survey.value?.active : undefined)),
    arrival,
    isOf: (kind) => page.value === SHEET_PAGE && sheet.value?.kind === kind,
    hold: () => {
      held.value ??= inFront.peek();
    },
    release: () => {
      if (!isElsewhere.peek()) held.value = undefined;
    },
    follow: () => {
      held.value = undefined;
      arrival.value = '';
    },
    arrive: (words) => {
      held.value = undefined;
      page.value = SHEET_PAGE;
      arrival.value = words;
    },
    stop: () => {
      for (const stop of stops) stop();
    },
  };
}
