import { useSignal } from '@preact/signals';
import type { Store } from '../store';
import { Action } from './Action';
import { Fold } from './Fold';

/** Two to twelve units side by side by their centre readings: names, order, and the button that builds the sheet. */
export function SpotCard({ store }: { readonly store: Store }) {
  const { spot, troubles } = store;
  const isOpen = useSignal(false);
  const meter = spot.meter.value;
  const isDrawn = spot.isDrawn.value;
  return (
    <Fold
      title="Spot check"
      gist="two to twelve units, centre only"
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <p>
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
      <div class="field">
        <label for="spot-order">Order</label>
        <select
          id="spot-order"
          value={isDrawn ? 'drawn' : 'listed'}
          onChange={(event) => spot.change({ isDrawn: event.currentTarget.value === 'drawn' })}
        >
          <option value="listed">as listed</option>
          <option value="drawn">drawn by lot</option>
        </select>
      </div>
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
      <div class="field">
        <label for="spot-reference">Figures relative to</label>
        <select
          id="spot-reference"
          value={spot.reference.value}
          onChange={(event) =>
            spot.change({ reference: event.currentTarget.value === 'best' ? 'best' : 'first' })
          }
        >
          <option value="first">the first unit of the list</option>
          <option value="best">the brightest unit</option>
        </select>
      </div>
      <div class="field">
        <label for="spot-ambient">Ambient light</label>
        <select
          id="spot-ambient"
          value={spot.hasAmbient.value ? 'yes' : 'no'}
          onChange={(event) => spot.change({ hasAmbient: event.currentTarget.value === 'yes' })}
        >
          <option value="yes">read once and taken off</option>
          <option value="no">not measured</option>
        </select>
      </div>
      <p class="quiet">
        {meter
          ? `Meter, place, person and date as under New run: ${[meter.name, meter.unit, `×\u00a0${meter.range}`].filter(Boolean).join(', ')}.`
          : 'The meter\u2019s fields under New run need another look.'}
      </p>
      {spot.problem.value && (
        <p class="error" role="alert">
          {spot.problem.value}
        </p>
      )}
      <Action isMain isOff={troubles.busy.value !== ''} onAct={() => void spot.build()}>
        Build the spot check
      </Action>
      {spot.built.value && (
        <p class="done" role="status">
          Built the sheet “{spot.built.value}”. Take its readings under Take readings.
        </p>
      )}
    </Fold>
  );
}
