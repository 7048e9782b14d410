import { type ReadonlySignal, signal } from '@preact/signals';
import { buildSheet } from '../form/build';
import { fields } from '../form/field';
import { createForm, type Form, faultOf } from '../form/form';
import { newRunOf } from '../run/newrun';
import { assembleMeter } from '../setup/assemble';
import { perStore } from '../store/perstore';
import { goesWith, refused, type Said } from '../store/said';
import type { Store } from '../store/type';

const CHECK = fields({
  light: {
    kind: 'text',
    label: 'Light used',
    hint: 'Which lamp or projector shines; it must hold still.',
  },
});

/** A new meter check: the meter is the one of the run form, the light is asked for. */
export interface NewMeterCheck {
  readonly form: Form<keyof typeof CHECK>;
  /** Why there is no sheet yet, after an attempt. */
  readonly report: ReadonlySignal<Said>;
  build(): Promise<void>;
}

/** Ranges of meters are tenfold. */
const NEXT_RANGE = 10;

export const newMeterCheckOf = perStore((store: Store): NewMeterCheck => {
  const form = createForm(CHECK, { name: 'meter-check' });
  const report = signal<Said>('');
  const run = newRunOf(store).form;
  goesWith(report, () => [form.texts.value, run.texts.value]);
  return {
    form,
    report,
    build: async () => {
      form.showAll();
      const meter = assembleMeter(run.texts.peek(), run.reads.peek());
      const fault = meter ? faultOf(form) : 'the fields of the meter need another look.';
      report.value = fault ? refused(`Nothing was built: ${fault}`) : '';
      if (!meter || fault) {
        run.showAll();
        return;
      }
      const { place, measuredBy, date } = run.texts.peek();
      const { name, unit, digit, range } = meter;
      const light = form.texts.peek().light.trim();
      await buildSheet(
        store,
        'meter check',
        async () => {
          const { meterCheckPlan } = await import('../../src/sheets/metercheck');
          const nextRange = range * NEXT_RANGE;
          return meterCheckPlan(
            { place, measuredBy, date, light, meter: { name, unit, digit, range, nextRange } },
            store.makeId(),
          );
        },
        () => '. It says part by part what to read; parts may be left out.',
      );
    },
  };
});
