import type { Store } from '../store';

/** Whether the rated figures are typed or follow the offer chosen on an offers sheet. */
export function RatedFrom({ newRun }: { readonly newRun: Store['newRun'] }) {
  const { offers, ratedFrom } = newRun;
  return (
    <div class="field">
      <label for="rated-from">Rated light output</label>
      <select
        id="rated-from"
        value={ratedFrom.value ?? ''}
        aria-describedby="rated-from-note"
        onChange={(event) => newRun.takeRatedFrom(event.currentTarget.value || undefined)}
      >
        <option value="">as typed below</option>
        {offers.value.map((sheet) => (
          <option key={sheet} value={sheet}>
            of the offer chosen on “{sheet}”
          </option>
        ))}
      </select>
      <p class="hint" id="rated-from-note">
        {ratedFrom.value === undefined
          ? ''
          : 'The run sheet is linked to it and follows the choice; what is typed below does not count.'}
      </p>
    </div>
  );
}
