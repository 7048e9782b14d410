import '../need/need.css';
import '../offers/offers.css';
import '../batch/batch.css';
import { NewBatch } from '../batch/NewBatch';
import { batchOf } from '../batch/state';
import { UnderWay } from '../batch/UnderWay';
import type { Store } from '../store';

/** Many units, one row each. */
export function Batch({ store }: { readonly store: Store }) {
  const step = batchOf(store);
  return (
    <section class="card form" aria-labelledby="batch-form-title">
      <h2 id="batch-form-title">New batch</h2>
      <NewBatch store={store} step={step} />
      <UnderWay step={step} />
    </section>
  );
}
