import { useEffect } from 'preact/hooks';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { openingOf } from './state';

/** Whether the workbook opens the pane by itself, and the switch for it. */
export function OpeningCard({ store }: { readonly store: Store }) {
  const opening = openingOf(store);
  useEffect(() => {
    void opening.look();
  }, [opening]);
  const opens = opening.opens.value;
  const isOff = store.troubles.busy.value !== '';
  return (
    <section class={look.card} aria-labelledby="opening-title">
      <h2 id="opening-title">Open with this workbook</h2>
      {opens === 'never' ? (
        <p class={look.quiet}>
          This program opens no pane by itself: press Light output on the Home tab to open it.
        </p>
      ) : (
        <>
          <label class={look.tick} for="opening-switch">
            <input
              id="opening-switch"
              type="checkbox"
              checked={opens === true}
              disabled={isOff || opens === undefined}
              onChange={(event) => void opening.set(event.currentTarget.checked)}
            />
            Open this pane whenever this workbook is opened
          </label>
          <p class={look.quiet}>
            It is kept in the workbook when that is saved, from its first sheet of ours on, and holds for
            everybody who has this add-in. Nobody else is asked for anything.
          </p>
        </>
      )}
    </section>
  );
}
