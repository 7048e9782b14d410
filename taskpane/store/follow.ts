import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { KnownSheet, SheetReading } from '../../src/excel/host';
import type { SheetKind } from '../../src/sheets/plan';
import { lastLook, sheetsOf } from './lastlook';
import type { Trouble } from './trouble';
import type { Store } from './type';

/** The sheets of one kind, and the one that is shown: the one picked, else the one in front, else the last. */
export interface Followed {
  readonly sheets: ReadonlySignal<readonly KnownSheet[]>;
  readonly shown: ReadonlySignal<string | undefined>;
  readonly reading: ReadonlySignal<SheetReading | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  pick(sheet: string): void;
}

/** Reads the shown sheet of a kind after every change of the workbook, while it is looked at or a page is open. */
export function follow({ host, workbook, page, front }: Store, kind: SheetKind, on?: string): Followed {
  const picked = signal<string | undefined>(undefined);
  const reading = signal<SheetReading | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const { sheets, shown } = sheetsOf(workbook.survey, kind, picked, front);
  const look = lastLook(
    async (sheet: string | undefined) => (sheet === undefined ? undefined : host.read(sheet)),
    {
      what: `Reading the ${kind} sheet`,
      trouble,
      take: (found) => {
        reading.value = found;
      },
    },
  );
  effect(() => {
    // Every look at the workbook makes a new survey.
    if (workbook.survey.value && (page.value === on || front.isOf(kind))) void look(shown.value);
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
