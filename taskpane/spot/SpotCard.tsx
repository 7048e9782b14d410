import { Build } from '../components/Build';
import { Field, Fields } from '../components/Field';
import look from '../components/look.module.css';
import { newRunOf } from '../run/newrun';
import { FurtherFields } from '../run/ui/NewRun';
import type { FieldId } from '../setup/field';
import type { Store } from '../store';
import { SPOT, type SpotField } from './form';
import { spotOf } from './state';

/** What a spot check takes of a run's set-up. */
const USED: ReadonlySet<FieldId> = new Set<FieldId>([
  'meterName',
  'range',
  'digit',
  'calibratedOn',
  'calibration',
  'whiteCorrection',
  'redCorrection',
  'greenCorrection',
  'blueCorrection',
  'place',
  'measuredBy',
  'date',
]);

const FIELDS = Object.keys(SPOT) as SpotField[];

/** Two to twelve units side by side by their centre readings: names, order, and the button that builds the sheet. */
export function SpotCard({ store }: { readonly store: Store }) {
  const { troubles } = store;
  const spot = spotOf(store);
  const run = newRunOf(store).form;
  return (
    <section class={look.card} aria-labelledby="spot-form-title">
      <h2 id="spot-form-title">New spot check</h2>
      <p class={look.quiet}>
        One reading at the centre in white, red, green and blue for each unit, at one place and one image
        size. It tells which unit is brighter than which, and nothing in lumens: for those, measure a run.
      </p>
      <Fields form={spot.form} ids={FIELDS} />
      <Field form={run} id="meterUnit" />
      <FurtherFields store={store} isUsed={(id) => USED.has(id)} />
      <Build isOff={troubles.busy.value !== ''} report={spot.report.value} onBuild={spot.build}>
        Build the spot check
      </Build>
    </section>
  );
}
