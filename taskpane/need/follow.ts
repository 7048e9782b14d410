import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { HostError, type KnownSheet, type SheetReading } from '../../src/excel/host';
import type { SheetKind } from '../../src/sheets/plan';
import type { Store } from '../store';
import { type Trouble, troubleOf } from '../store/trouble';

/** The sheets of one kind, and the one that is shown: the one picked, else the one in front, else the last. */
export interface Followed {
  readonly sheets: ReadonlySignal<readonly KnownSheet[]>;
  readonly shown: ReadonlySignal<string | undefined>;
  readonly reading: ReadonlySignal<SheetReading | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  pick(sheet: string): void;
}

/** Reads the shown sheet of a kind after every change of the workbook, while a page is open. */
export function follow({ host, workbook, page }: Store, kind: SheetKind, on: string): Followed {
  const picked = signal<string | undefined>(undefined);
  const reading = signal<SheetReading | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const sheets = computed(() => workbook.survey.value?.sheets.filter((sheet) => sheet.kind === kind) ?? []);
  const shown = computed(() => {
    const has = (name: string | undefined) => sheets.value.find(({ sheet }) => sheet === name)?.sheet;
    return has(picked.value) ?? has(workbook.survey.value?.active) ?? sheets.value.at(-1)?.sheet;
  });
  /** Counts the looks: only the last one is shown. */
  let looks = 0;

  async function look(sheet: string | undefined): Promise<void> {
    const own = ++looks;
    try {
      const found = sheet === undefined ? undefined : await host.read(sheet);
      if (own !== looks) return;
      reading.value = found;
      trouble.value = undefined;
    } catch (error) {
      if (own !== looks) return;
      // The workbook looks again by itself when the host is free, and this with it.
      if (error instanceof HostError && (error.trouble === 'editing' || error.trouble === 'busy')) return;
      reading.value = undefined;
      trouble.value = troubleOf(error, `Reading the ${kind} sheet`);
    }
  }
  effect(() => {
    // Every look at the workbook makes a new survey.
    if (workbook.survey.value && page.value === on) void look(shown.value);
  });

  return {
    sheets,
    shown,
    reading,
    trouble,
    pick: (sheet) => {
      picked.value = sheet;
    },
  };
}
