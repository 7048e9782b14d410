import { type ReadonlySignal, signal } from '@preact/signals';
import type { Host } from '../../src/excel/host';
import type { RunSetup } from '../../src/sheets/runsetup';
import type { Preferences } from '../preferences';
import { createForm, type Form } from '../setup/form';
import type { Troubles } from './trouble';
import type { Workbook } from './workbook';

/** A new run: the form, and building its sheet. */
export interface NewRun {
  readonly form: Form;
  /** Name of the sheet built last. */
  readonly built: ReadonlySignal<string>;
  /** Whether the form is unfolded: it folds away once a sheet is built. */
  readonly isOpen: ReadonlySignal<boolean>;
  fold(isOpen: boolean): void;
  /** Builds the sheet; false if the form is not fit or the host refused. */
  build(): Promise<boolean>;
  recall(): Promise<void>;
}

const KEPT = 'setup';

/** The plan is a third of the pane's script and wanted only now, so it is not loaded before the first paint. */
async function buildPlan(host: Host, setup: RunSetup, id: string): Promise<{ readonly sheet: string }> {
  const { runPlan } = await import('../../src/sheets/run');
  return host.build(runPlan(setup, id));
}

export function createNewRun(
  host: Host,
  workbook: Workbook,
  troubles: Troubles,
  preferences: Preferences,
  today: string,
  makeId: () => string,
): NewRun {
  const form = createForm(today);
  const built = signal('');
  const isOpen = signal(true);
  return {
    form,
    built,
    isOpen,
    fold: (open) => {
      isOpen.value = open;
    },
    build: async () => {
      form.showAll();
      const setup = form.setup.value;
      if (!setup) return false;
      built.value = '';
      const attempt = await troubles.attempt('Building the run sheet', () =>
        buildPlan(host, setup, makeId()),
      );
      if (!attempt.ok) return false;
      built.value = attempt.value.sheet;
      isOpen.value = false;
      workbook.pick(undefined);
      await Promise.all([workbook.look(), preferences.set(KEPT, form.keep())]);
      return true;
    },
    recall: async () => form.recall(await preferences.get(KEPT)),
  };
}
