import { newRunOf } from '../run/newrun';
import type { FieldId } from '../setup/field';
import { spotOf } from '../spot/state';
import type { Store } from '../store';
import { Action } from './Action';
import { Choice } from './Choice';
import { Field } from './Field';
import { FurtherFields } from './NewRun';

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

/** Two to twelve units side by side by their centre readings: names, order, and the button that builds the sheet. */
export function SpotCard({ store }: { readonly store: Store }) {
  const { troubles } = store;
  const spot = spotOf(store);
  const { form } = newRunOf(store);
  const isDrawn = spot.isDrawn.value;
  return (
    <section class="card form" aria-labelledby="spot-form-title">
      <h2 id="spot-form-title">New spot check</h2>
      <p class="quiet">
        One reading at the centre in white, red, green and blue for each unit, at one place and one image
        size. It tells which unit is brighter than which, and nothing in lumens: for those, measure a run.
      </p>
      <div class="field">
        <label for="spot-title">Name of the spot check</label>
        <input
          id="spot-title"
          type="text"
          autocomplete="off"
          value={spot.title.value}
          onInput={(event) => spot.change({ title: event.currentTarget.value })}
        />
      </div>
      <div class="field">
        <label for="spot-names">Units, one a line</label>
        <textarea
          id="spot-names"
          rows={4}
          value={spot.names.value}
          aria-describedby="spot-count"
          onInput={(event) => spot.change({ names: event.currentTarget.value })}
        />
        <p id="spot-count" class="hint">
          {spot.units.value.length} of 2 to 12 units
        </p>
      </div>
      <Choice
        id="spot-order"
        label="Order"
        value={isDrawn ? 'drawn' : 'listed'}
        choices={[
          ['listed', 'as listed'],
          ['drawn', 'drawn by lot'],
        ]}
        onPick={(order) => spot.change({ isDrawn: order === 'drawn' })}
      />
      {isDrawn && (
        <div class="field">
          <label for="spot-seed">Seed of the draw</label>
          <input
            id="spot-seed"
            type="text"
            autocomplete="off"
            value={spot.seed.value}
            aria-describedby="spot-seed-hint"
            onInput={(event) => spot.change({ seed: event.currentTarget.value })}
          />
          <p id="spot-seed-hint" class="hint">
            Kept on the sheet: with it anybody can repeat the draw.
          </p>
        </div>
      )}
      <Choice
        id="spot-reference"
        label="Figures relative to"
        value={spot.reference.value}
        choices={[
          ['first', 'the first unit of the list'],
          ['best', 'the brightest unit'],
        ]}
        onPick={(reference) => spot.change({ reference: reference === 'best' ? 'best' : 'first' })}
      />
      <Choice
        id="spot-ambient"
        label="Ambient light"
        value={spot.hasAmbient.value ? 'yes' : 'no'}
        choices={[
          ['yes', 'read once and taken off'],
          ['no', 'not measured'],
        ]}
        onPick={(ambient) => spot.change({ hasAmbient: ambient === 'yes' })}
      />
      <Field form={form} id="meterUnit" />
      <FurtherFields store={store} isUsed={(id) => USED.has(id)} />
      {spot.problem.value && (
        <p class="error" role="alert">
          {spot.problem.value}
        </p>
      )}
      <Action isMain isOff={troubles.busy.value !== ''} onAct={() => void spot.build()}>
        Build the spot check
      </Action>
    </section>
  );
}
