import look from '../components/look.module.css';
import type { BodyProps } from '../sheet/body';
import { BatchState } from './BatchState';
import { LogCard } from './LogCard';
import { batchOf } from './state';
import { UnderWay } from './UnderWay';
import { UnitCard } from './UnitCard';

/** A batch: how far it is, what does not pass, a meter's log into it, its units one by one. */
export function BatchBody({ store }: BodyProps) {
  const step = batchOf(store);
  const view = step.view.value;
  return (
    <section class={look.card} aria-labelledby="batch-title">
      <h2 id="batch-title">Units</h2>
      <BatchState store={store} step={step} />
      {view && <LogCard store={store} step={step} />}
      {view && <UnitCard store={store} step={step} />}
      <UnderWay step={step} />
    </section>
  );
}
