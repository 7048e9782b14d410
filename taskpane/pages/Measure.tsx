import { Cautions } from '../components/Cautions';
import { NewRun } from '../components/NewRun';
import { PasteCard } from '../components/PasteCard';
import { RunCard } from '../components/RunCard';
import { TestFields } from '../components/TestFields';
import type { Store } from '../store';

/** One projector in one mode: cautions, set-up, readings, results. */
export function Measure({ store }: { readonly store: Store }) {
  return (
    <>
      <Cautions cautions={store.cautions} />
      <NewRun store={store} />
      <TestFields />
      <RunCard store={store} />
      <PasteCard store={store} />
    </>
  );
}
