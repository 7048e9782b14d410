import { Waiting } from '../capture/CaptureCard';
import { captureOf } from '../capture/fetched';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { Report } from '../components/Report';
import { TroubleBox } from '../components/TroubleBox';
import type { Store } from '../store';
import { Lines } from './Lines';
import { type OverviewStep, overviewOf } from './state';

/** What is in the workbook: the next thing, every sheet with what came out, and what is done with all of them. */
export function Sheets({ store }: { readonly store: Store }) {
  const step = overviewOf(store);
  const { next } = step;
  const isBusy = store.troubles.busy.value !== '';
  const trouble = step.trouble.value;
  const service = captureOf(store).service.value;
  return (
    <>
      {service && <Waiting capture={service} />}
      <section class={look.card} aria-labelledby="overview-title">
        <h2 id="overview-title">In this workbook</h2>
        {trouble && <TroubleBox trouble={trouble} facts={store.facts} />}
        {next.value && (
          <Action isMain isOff={isBusy} onAct={() => void step.goOn()}>
            {next.value.text}
          </Action>
        )}
        <Lines step={step} />
      </section>
      <section class={look.card} aria-labelledby="all-title">
        <h2 id="all-title">With all of them</h2>
        <div class={look.answers}>
          <Action onAct={() => store.open('new')}>Make a new sheet</Action>
          <Action
            isOff={isBusy}
            onAct={() => {
              store.open('audit');
              void import('../trace/checking').then(({ checkingOf }) => checkingOf(store).checkAll());
            }}
          >
            Check all
          </Action>
          <Action onAct={() => store.open('audit')}>Plain copy, log</Action>
        </div>
      </section>
      <OverviewSheet store={store} step={step} />
    </>
  );
}

/** The same as a sheet. */
function OverviewSheet({ store, step }: { readonly store: Store; readonly step: OverviewStep }) {
  const { overview, gone, report } = step;
  const isBusy = store.troubles.busy.value !== '';
  return (
    <section class={look.card} aria-labelledby="overview-sheet-title">
      <h2 id="overview-sheet-title">Overview sheet</h2>
      <p class={look.quiet}>
        The same as a sheet, linked to the others, for those who open the workbook without this pane.
      </p>
      <Action isOff={isBusy} onAct={() => void step.build()}>
        {overview.value ? `Bring “${overview.value.sheet}” up to date` : 'Build the overview sheet'}
      </Action>
      {gone.value.length > 0 && (
        <>
          <p class={look.quiet}>
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
  );
}
