import { TEXT_MAX } from '../../src/sheets/setup/fields';
import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import { Fields } from '../components/Field';
import { FurtherFields } from '../components/NewRun';
import { newRunOf } from '../run/newrun';
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
    <section class="card form" aria-labelledby="meter-check-title">
      <h2 id="meter-check-title">New meter check</h2>
      <p class="quiet">
        A meter against itself, in a dark room with one steady lamp: repeats in one place, two ranges on one
        light, two distances, parts against the whole. What it finds makes a run’s doubt smaller, or says
        honestly that it is larger. About half an hour; each part may be left out.
      </p>
      <Fields form={form} ids={FIRST} />
      <Entry
        id="meter-check-light"
        label="Light used"
        value={state.light.value}
        hint="Which lamp or projector shines; it must hold still."
        error={state.light.value.length > TEXT_MAX ? `At most ${TEXT_MAX} characters.` : undefined}
        onType={state.type}
      />
      <FurtherFields store={store} isUsed={(id) => USED.has(id)} />
      {state.problem.value && (
        <p class="error" role="alert">
          {state.problem.value}
        </p>
      )}
      <Action isMain isOff={troubles.busy.value !== ''} onAct={() => void state.build()}>
        Build the meter check
      </Action>
    </section>
  );
}
