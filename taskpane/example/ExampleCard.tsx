import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { Report } from '../components/Report';
import type { Store } from '../store';
import { exampleOf } from './state';

/** Offers the ready example in a workbook that has nothing of ours yet, and tells how far it is. */
export function ExampleCard({ store }: { readonly store: Store }) {
  const { progress, report, isStopping, open, stop } = exampleOf(store);
  const at = progress.value;
  return (
    <section class={look.card} aria-labelledby="example-title">
      <h2 id="example-title">A ready example</h2>
      {!at && !report.value && (
        <p class={look.quiet}>
          The whole purchase on invented data: a library network, 14 reading rooms, five offers, a delivery of
          60 units of which two fall short. It adds its sheets to this workbook.
        </p>
      )}
      {at ? (
        <>
          <p>
            Sheet {at.done + 1} of {at.of}: {at.label}
          </p>
          <progress max={at.of} value={at.done} aria-label="sheets built" />
          <Action isOff={isStopping.value} onAct={stop}>
            {isStopping.value ? 'Stopping after this sheet' : 'Stop'}
          </Action>
        </>
      ) : (
        !report.value && (
          <Action isOff={store.troubles.busy.value !== ''} onAct={() => void open()}>
            Open the example
          </Action>
        )
      )}
      <Report words={report.value} />
    </section>
  );
}
