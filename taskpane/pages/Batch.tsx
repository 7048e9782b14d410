import { NewBatch } from '../batch/NewBatch';
import { batchOf } from '../batch/state';
import { UnderWay } from '../batch/UnderWay';
import look from '../components/look.module.css';
import type { Store } from '../store';

/** Many units, one row each. */
export function Batch({ store }: { readonly store: Store }) {
  const step = batchOf(store);
  return (
    <section class={look.card} aria-labelledby="batch-form-title">
      <h2 id="batch-form-title">New batch</h2>
      <NewBatch store={store} step={step} />
      <UnderWay step={step} />
    </section>
  );
}
