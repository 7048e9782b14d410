import { Build } from '../components/Build';
import { Fields } from '../components/Field';
import look from '../components/look.module.css';
import { newRunOf } from '../run/newrun';
import { FurtherFields } from '../run/ui/NewRun';
import type { FieldId } from '../setup/field';
import type { Store } from '../store';
import { newMeterCheckOf } from './state';

/** What a meter check takes of a run's set-up. */
const FIRST: readonly FieldId[] = ['meterName', 'meterUnit', 'digit', 'range'];
const USED: ReadonlySet<FieldId> = new Set<FieldId>(['place', 'measuredBy', 'date']);

/** A meter held against itself, without a laboratory: which meter, on which light, and the button that builds the sheet. */
export function NewMeterCheck({ store }: { readonly store: Store }) {
  const state = newMeterCheckOf(store);
  const { troubles } = store;
  const { form } = newRunOf(store);
  return (
    <section class={look.card} aria-labelledby="meter-check-title">
      <h2 id="meter-check-title">New meter check</h2>
      <p class={look.quiet}>
        A meter against itself, in a dark room with one steady lamp: repeats in one place, two ranges on one
        light, two distances, parts against the whole. What it finds makes a run’s doubt smaller, or says
        honestly that it is larger. About half an hour; each part may be left out.
      </p>
      <Fields form={form} ids={FIRST} />
      <Fields form={state.form} ids={['light']} />
      <FurtherFields store={store} isUsed={(id) => USED.has(id)} />
      <Build isOff={troubles.busy.value !== ''} report={state.report.value} onBuild={state.build}>
        Build the meter check
      </Build>
    </section>
  );
}
