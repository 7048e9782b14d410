import { type ReadonlySignal, signal } from '@preact/signals';
import type { SpotSetup } from '../../src/sheets/spot/setup';
import { buildSheet } from '../form/build';
import { objectionOf } from '../form/field';
import { createForm, type Form, type Restore } from '../form/form';
import { startOf } from '../form/read';
import { newRunOf } from '../run/newrun';
import { assembleMeter } from '../setup/assemble';
import { perStore } from '../store/perstore';
import { goesWith, refused, type Said } from '../store/said';
import type { Store } from '../store/type';
import { SPOT, type SpotField, unitsIn } from './form';

/** A new spot check: names of units, and building its sheet. The meter is the one of the run form. */
interface Spot {
  readonly form: Form<SpotField>;
  /** Why there is no sheet yet, after an attempt. */
  readonly report: ReadonlySignal<Said>;
  snapshot(): Restore;
  build(): Promise<void>;
}

/** What is typed outlives looking at another page. */
export const spotOf = perStore(createSpot);

function createSpot(store: Store): Spot {
  const { makeId } = store;
  const run = newRunOf(store).form;
  const report = signal<Said>('');
  const form = createForm(SPOT, {
    name: 'spot',
    start: { ...startOf(SPOT), seed: makeId() },
    onType: () => {
      report.value = '';
    },
  });
  goesWith(report, () => run.texts.value);
  return {
    form,
    report,
    snapshot: () => {
      const restore = form.snapshot();
      return () => {
        restore();
        report.value = '';
      };
    },
    build: async () => {
      const meter = assembleMeter(run.texts.peek(), run.reads.peek());
      if (!meter) {
        run.showAll();
        report.value = refused('Nothing was built: the fields of the meter need another look.');
        return;
      }
      const { title, names, order, seed, reference, ambient } = form.texts.peek();
      const { place, measuredBy, date } = run.texts.peek();
      const setup: SpotSetup = {
        title,
        units: unitsIn(names),
        reference: reference === 'best' ? 'best' : 'first',
        ...(order === 'drawn' ? { seed } : {}),
        ambient: ambient === 'yes',
        ...{ place, measuredBy, date, meter },
      };
      // The plan and its draw are wanted only now.
      const { spotPlan, spotOrder } = await import('../../src/sheets/spot');
      const objection = objectionOf(spotOrder(setup.units, setup.seed));
      report.value = objection ? refused(objection) : '';
      if (objection) return;
      await buildSheet(
        store,
        'spot check',
        () => spotPlan(setup, makeId()),
        () => '. Take its readings below, or type them on the sheet.',
      );
    },
  };
}
