import '../need/need.css';
import '../offers/offers.css';
import './batch.css';
import { useSignal } from '@preact/signals';
import { Action } from '../components/Action';
import { Fold } from '../components/Fold';
import { Report } from '../components/Report';
import type { Store } from '../store';
import { BatchState } from './BatchState';
import { LogCard } from './LogCard';
import { NewBatch } from './NewBatch';
import { type BatchStep, batchOf } from './state';
import { UnitCard } from './UnitCard';

/** Many units, one row each: a new batch, how far it is, a meter's log into it, its units one by one. */
export function BatchCard({ store }: { readonly store: Store }) {
  const step = batchOf(store);
  const view = step.view.value;
  const hasBatch = step.sheets.value.length > 0;
  const isNewOpen = useSignal(false);
  const gist = view
    ? `${view.complete} of ${view.units.length} units complete${view.failing.length > 0 ? `, ${view.failing.length} not passing` : ''}`
    : 'many units, one row each';
  return (
    <Fold title="Batch" gist={gist} isOpen={step.isOpen.value} onFold={step.fold}>
      {hasBatch ? (
        <>
          <BatchState store={store} step={step} />
          {view && <LogCard store={store} step={step} />}
          {view && <UnitCard store={store} step={step} />}
          <Fold
            kind="group"
            title="New batch"
            gist="another sheet"
            isOpen={isNewOpen.value}
            onFold={(open) => {
              isNewOpen.value = open;
            }}
          >
            <NewBatch store={store} step={step} />
          </Fold>
        </>
      ) : (
        <NewBatch store={store} step={step} />
      )}
      <Under step={step} />
    </Fold>
  );
}

/** How far a long action is, with a way to stop it; and what the last one came to. */
function Under({ step }: { readonly step: BatchStep }) {
  const done = step.progress.value;
  return (
    <div class="under-way" role="status">
      {done !== undefined && (
        <>
          <progress max={1} value={done} aria-label="how far it is" />
          <Action onAct={step.stop}>Stop</Action>
        </>
      )}
      {step.report.value && <Report words={step.report.value} />}
    </div>
  );
}
