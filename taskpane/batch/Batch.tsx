import look from '../components/look.module.css';
import type { Store } from '../store';
import { NewBatch } from './NewBatch';
import { batchOf } from './state';
import { UnderWay } from './UnderWay';

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
