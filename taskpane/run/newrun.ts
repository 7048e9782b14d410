import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { buildSheet } from '../form/build';
import { createSetupForm, type SetupForm } from '../setup/form';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';
import { withRated } from './rated';

/** A new run: the form, and building its sheet. */
export interface NewRun {
  readonly form: SetupForm;
  /** Name of the sheet built last. */
  readonly built: ReadonlySignal<string>;
  /** Offers sheets whose chosen offer may give the rated figures. */
  readonly offers: ReadonlySignal<readonly string[]>;
  /** The one that gives them; undefined where they are typed. */
  readonly ratedFrom: ReadonlySignal<string | undefined>;
  takeRatedFrom(sheet: string | undefined): void;
  /** Where the set-up in the form was taken from; empty where it was typed. */
  readonly takenFrom: ReadonlySignal<string>;
  /** Fills in the set-up of a run sheet, but for serial number and day. */
  takeRun(sheet: string): Promise<boolean>;
  /** Builds the sheet; false if the form is not fit or the host refused. */
  build(): Promise<boolean>;
  recall(): Promise<void>;
}

const KEPT = 'setup';

/** Form and links outlive looking at another page; other steps take the meter and the image from it. */
export const newRunOf = perStore(createNewRun);

function createNewRun(store: Store): NewRun {
  const { host, workbook, troubles, preferences, today, makeId } = store;
  const form = createSetupForm(today);
  const built = signal('');
  const takenFrom = signal('');
  const offers = computed(
    () =>
      workbook.survey.value?.sheets.filter(({ kind }) => kind === 'offers').map(({ sheet }) => sheet) ?? [],
  );
  const wanted = signal<string | undefined>(undefined);
  // A sheet that was deleted or renamed meanwhile gives nothing.
  const ratedFrom = computed(() => offers.value.find((sheet) => sheet === wanted.value));
  return {
    form,
    built,
    offers,
    ratedFrom,
    takeRatedFrom: (sheet) => {
      wanted.value = sheet;
    },
    takenFrom,
    takeRun: async (sheet) => {
      const attempt = await troubles.attempt('Reading the run sheet', async () => {
        const { textsOfRun } = await import('../setup/fromsheet');
        return textsOfRun(host, sheet);
      });
      if (!attempt.ok) return false;
      form.take(attempt.value);
      takenFrom.value = sheet;
      return true;
    },
    build: async () => {
      form.showAll();
      const setup = form.setup.value;
      if (!setup) return false;
      built.value = '';
      const sheet = await buildSheet(
        store,
        'run sheet',
        async () => {
          // The plan is as large as half the pane, and wanted only now.
          const { runPlan } = await import('../../src/sheets/run');
          return withRated(host, runPlan(setup, makeId()), ratedFrom.peek());
        },
        () => {
          workbook.pick(undefined);
          void preferences.set(KEPT, form.keep());
          return '. Take the readings below, or type them on the sheet as they lie on the screen.';
        },
      );
      built.value = sheet ?? '';
      return sheet !== undefined;
    },
    recall: async () => form.recall(await preferences.get(KEPT)),
  };
}
