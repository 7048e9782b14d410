import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { newRunOf } from '../run/newrun';
import { assembleMeter } from '../setup/assemble';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';

/** A new meter check: the meter is the one of the run form, the light is asked for. */
export interface NewMeterCheck {
  readonly light: ReadonlySignal<string>;
  /** Why there is no sheet yet, after an attempt. */
  readonly problem: ReadonlySignal<string>;
  type(light: string): void;
  build(): Promise<boolean>;
}

/** Ranges of meters are tenfold. */
const NEXT_RANGE = 10;

export const newMeterCheckOf = perStore((store: Store): NewMeterCheck => {
  const { host, workbook, troubles, front, makeId } = store;
  const light = signal('');
  const problem = signal('');
  const { form } = newRunOf(store);
  const meter = computed(() => assembleMeter(form.texts.value, form.reads.value));
  return {
    light,
    problem,
    type: (text) => {
      light.value = text;
    },
    build: async () => {
      const one = meter.peek();
      if (!one) {
        problem.value = 'The fields of the meter need another look.';
        return false;
      }
      problem.value = '';
      const { place, measuredBy, date } = form.texts.peek();
      const { name, unit, digit, range } = one;
      const attempt = await troubles.attempt('Building the meter check', async () => {
        const { meterCheckPlan } = await import('../../src/sheets/metercheck');
        return host.build(
          meterCheckPlan(
            {
              place,
              measuredBy,
              date,
              light: light.peek().trim(),
              meter: { name, unit, digit, range, nextRange: range * NEXT_RANGE },
            },
            makeId(),
          ),
        );
      });
      if (!attempt.ok) return false;
      await workbook.look();
      front.arrive(
        `Built the sheet “${attempt.value.sheet}”. It says part by part what to read; parts may be left out.`,
      );
      return true;
    },
  };
});
