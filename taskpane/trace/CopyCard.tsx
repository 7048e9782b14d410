import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { Report } from '../components/Report';
import { Arrival } from '../saving/Arrival';
import type { Store } from '../store';
import { copyingOf } from './copying';

/** A copy to hand over to somebody without the add-in. */
export function CopyCard({ store }: { readonly store: Store }) {
  const copying = copyingOf(store);
  const isOff = store.troubles.busy.value !== '';
  return (
    <section class={look.card} aria-labelledby="copying-title">
      <h2 id="copying-title">Plain copy to hand over</h2>
      <p class={look.quiet}>
        The whole workbook without our functions: their results stand as values, the plain formulas beside
        them go on calculating, names and looks stay. A first sheet says so. This workbook is not changed.
      </p>
      <div class={look.answers}>
        <Action isOff={isOff} onAct={() => void copying.make()}>
          Make a plain copy
        </Action>
      </div>
      <p role="status">{copying.made.value !== undefined && `The copy is ready. ${copying.made.value}`}</p>
      {copying.made.value !== undefined && (
        <div class={look.answers}>
          {copying.canOpen && (
            <Action isMain isOff={isOff} onAct={() => void copying.open()}>
              Open it as a new workbook
            </Action>
          )}
          <Action isMain={!copying.canOpen} isOff={isOff} onAct={copying.save}>
            Save it as a file
          </Action>
        </div>
      )}
      <Arrival saving={copying.saving} />
      <Report words={copying.said.value} />
    </section>
  );
}
