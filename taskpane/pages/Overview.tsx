import '../overview/overview.css';
import { Action } from '../components/Action';
import { Report } from '../components/Report';
import { TroubleBox } from '../components/TroubleBox';
import { Lines } from '../overview/Lines';
import { overviewOf } from '../overview/state';
import type { Store } from '../store';

/** Every sheet of ours in the workbook: how far it is, what came out, and the way to it. */
export function Overview({ store }: { readonly store: Store }) {
  const step = overviewOf(store);
  const { overview, gone, next, report } = step;
  const isBusy = store.troubles.busy.value !== '';
  const trouble = step.trouble.value;
  return (
    <>
      <section class="card" aria-labelledby="overview-title">
        <h2 id="overview-title">In this workbook</h2>
        {trouble && <TroubleBox trouble={trouble} facts={store.facts} />}
        {next.value && (
          <Action isMain isOff={isBusy} onAct={() => void step.goOn()}>
            {next.value.text}
          </Action>
        )}
        <Lines step={step} />
      </section>
      <section class="card" aria-labelledby="overview-sheet-title">
        <h2 id="overview-sheet-title">Overview sheet</h2>
        <p class="quiet">
          The same as a sheet, linked to the others, for those who open the workbook without this pane.
        </p>
        <Action isMain={!overview.value && !next.value} isOff={isBusy} onAct={() => void step.build()}>
          {overview.value ? `Bring “${overview.value.sheet}” up to date` : 'Build the overview sheet'}
        </Action>
        {gone.value.length > 0 && (
          <>
            <p class="quiet">
              Listed there as gone: {gone.value.map((sheet) => `“${sheet}”`).join(', ')}. A sheet that was
              deleted is not forgotten by itself.
            </p>
            <Action isOff={isBusy} onAct={() => void step.forget()}>
              Take out what is gone
            </Action>
          </>
        )}
        <Report words={report.value} />
      </section>
    </>
  );
}
