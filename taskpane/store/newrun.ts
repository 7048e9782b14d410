import { computed, type ReadonlySignal, signal } from '@preact/signals';
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
  /** Whether the form is unfolded: it folds away once a sheet is built, and where the workbook has runs already. */
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
  const chosen = signal<boolean | undefined>(undefined);
  // Decided by the first look only: a run that comes later must not fold the form under somebody's hands.
  let begins: boolean | undefined;
  const byItself = computed(() => {
    if (!workbook.survey.value) return true;
    begins ??= workbook.runs.value.length === 0;
    return begins;
  });
  const isOpen = computed(() => chosen.value ?? byItself.value);
  return {
    form,
    built,
    isOpen,
    fold: (open) => {
      // The browser also tells of folding that we did ourselves.
      if (open !== isOpen.peek()) chosen.value = open;
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
      chosen.value = false;
      workbook.pick(undefined);
      await Promise.all([workbook.look(), preferences.set(KEPT, form.keep())]);
      return true;
    },
    recall: async () => form.recall(await preferences.get(KEPT)),
  };
}
