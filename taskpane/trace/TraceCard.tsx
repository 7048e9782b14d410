import { useState } from 'preact/hooks';
import { traceText } from '../../src/audit/trace/text';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { TraceTree } from './TraceTree';
import tree from './TraceTree.module.css';
import { tracingOf } from './tracing';

/** How deep a tree is open: closed, the result alone as at first, everything. */
const NONE = -1;
const FIRST = 0;
const ALL = Number.POSITIVE_INFINITY;

/** One number back to its readings. */
export function TraceCard({ store }: { readonly store: Store }) {
  const tracing = tracingOf(store);
  // A new trace is a new tree and begins as every tree does.
  const trace = tracing.count.value;
  const [opening, setOpening] = useState({ trace, depth: FIRST, times: 0 });
  const depth = opening.trace === trace ? opening.depth : FIRST;
  const openTo = (to: number) => setOpening(({ times }) => ({ trace, depth: to, times: times + 1 }));
  const node = tracing.node.value;
  const opinion = tracing.second.value;
  return (
    <section class={look.card} aria-labelledby="trace-title">
      <h2 id="trace-title">Where a number comes from</h2>
      <p class={look.quiet}>
        Select a result in the sheet. Its formula, numbers and readings are followed back.
      </p>
      <Action isMain isOff={store.troubles.busy.value !== ''} onAct={() => void tracing.traceSelected()}>
        Trace the selected cell
      </Action>
      <div role="status">
        <p>{tracing.said.value}</p>
        {opinion && <p class={opinion.isDiffering ? look.error : look.quiet}>{opinion.words}</p>}
      </div>
      {node && (
        <>
          <div class={look.answers}>
            <Action onAct={() => openTo(ALL)}>Open all</Action>
            <Action onAct={() => openTo(NONE)}>Close all</Action>
          </div>
          <ul class={tree.tree} aria-label={`Chain of ${node.label}`}>
            <TraceTree key={`${trace} ${opening.times}`} store={store} node={node} depth={0} openTo={depth} />
          </ul>
          <div class={look.answers}>
            <Action isOff={store.troubles.busy.value !== ''} onAct={() => void tracing.toSheet()}>
              Write the chain to a sheet
            </Action>
          </div>
          <CopyText key={trace} text={() => traceText(node)}>
            Copy the chain as text
          </CopyText>
        </>
      )}
    </section>
  );
}
