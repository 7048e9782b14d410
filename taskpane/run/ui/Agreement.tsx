import { Action } from '../../components/Action';
import look from '../../components/look.module.css';
import { count } from '../../parse/block';
import type { Store } from '../../store';
import type { RunView } from '../view';

/** Whether the two ways to compute every result agree, and the cure where the custom functions do not answer. */
export function Agreement({ store, run }: { readonly store: Store; readonly run: RunView }) {
  const { agreeing, differing } = run.agreement;
  return (
    <>
      <p class={differing.length > 0 ? look.error : look.quiet}>{sentence(agreeing, differing)}</p>
      {run.isCalculating && <p class={look.quiet}>The spreadsheet is still calculating.</p>}
      {run.needsRefresh && (
        <div class={look.notice}>
          <p>
            Some results show <code>#NAME?</code>: the sheet was opened before this add-in was there. The
            plain formulas beside them are right meanwhile.
          </p>
          <Action isMain isOff={store.troubles.busy.value !== ''} onAct={() => void store.refresh()}>
            Refresh results
          </Action>
        </div>
      )}
      {store.refreshed.value && (
        <p class={look.done} role="status">
          {store.refreshed.value}
        </p>
      )}
    </>
  );
}

function sentence(agreeing: number, differing: readonly string[]): string {
  if (differing.length > 0) {
    return `${count(differing.length, 'result')} and plain formula differ: ${differing.join(', ')}. Do not use ${differing.length === 1 ? 'it' : 'them'} before the cause is found.`;
  }
  if (agreeing === 0)
    return 'Every result is computed twice, by function and by plain formula; nothing to compare yet.';
  return `Computed twice, by function and by plain formula: ${agreeing === 1 ? 'the one result agrees' : `all ${agreeing} agree`}.`;
}
