import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { KnownSheet } from '../../src/excel/host';
import { every } from '../../src/sheets/names/every';
import type { Store } from '../store';
import { lastLook, sheetsOf } from '../store/lastlook';
import type { Trouble } from '../store/trouble';
import { type BatchView, batchView, VIEW_NAMES } from './view';

/** The batches of the workbook and the one that is shown. */
export interface ShownBatch {
  readonly sheets: ReadonlySignal<readonly KnownSheet[]>;
  readonly view: ReadonlySignal<BatchView | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  pick(sheet: string): void;
  /** Reads a batch whichever is shown. */
  viewOf(sheet: string): Promise<BatchView | undefined>;
  goTo(cell: string): Promise<void>;
  /** Enters the function of the batch again: the cure for #NAME? left from before the add-in loaded. */
  refresh(): Promise<void>;
}

/** Names whose first column holds functions of ours. */
const FUNCTION_NAMES = ['FunctionTable', ...every(['White', 'Colour'], ['SharedU', 'Dof', 'K'])] as const;

/** A long batch is read only while somebody looks at it. */
export function createShownBatch({ host, workbook, troubles, front }: Store): ShownBatch {
  const picked = signal<string | undefined>(undefined);
  const view = signal<BatchView | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const { sheets, shown } = sheetsOf(workbook.survey, 'batch', picked, front);

  const look = lastLook(
    async (sheet: string | undefined) =>
      sheet === undefined ? undefined : batchView(sheet, await host.readNamed(sheet, VIEW_NAMES)),
    {
      what: 'Reading the batch',
      trouble,
      take: (found) => {
        view.value = found;
      },
    },
  );
  effect(() => {
    // Every look at the workbook makes a new survey.
    if (workbook.survey.value && front.isOf('batch')) void look(shown.value);
  });

  return {
    sheets,
    view,
    trouble,
    pick: (sheet) => {
      picked.value = sheet;
    },
    viewOf: async (sheet) => {
      const attempt = await troubles.attempt('Reading the batch', () => host.readNamed(sheet, VIEW_NAMES));
      return attempt.ok ? batchView(sheet, attempt.value) : undefined;
    },
    goTo: async (cell) => {
      const sheet = view.peek()?.sheet;
      if (sheet) await troubles.attempt('Going to the cell', () => host.select(sheet, cell));
    },
    refresh: async () => {
      const sheet = view.peek()?.sheet;
      if (!sheet) return;
      await troubles.attempt('Entering the function again', () => host.enterAgain(sheet, FUNCTION_NAMES));
      await workbook.look();
    },
  };
}
