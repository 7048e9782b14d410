import { Cautions } from '../components/Cautions';
import { ExampleCard } from '../components/ExampleCard';
import { later } from '../components/Later';
import { NewRun } from '../components/NewRun';
import { RunCard } from '../components/RunCard';
import type { Store } from '../store';

const PasteCard = later(async () => (await import('../components/PasteCard')).PasteCard);
const TestFields = later(async () => (await import('../components/TestFields')).TestFields);
const CaptureCard = later(async () => (await import('../components/CaptureCard')).CaptureCard);
const SpotCard = later(async () => (await import('../components/SpotCard')).SpotCard);
const SpotResultCard = later(async () => (await import('../spot/SpotResultCard')).SpotResultCard);
const BatchCard = later(async () => (await import('../batch/BatchCard')).BatchCard);

const CaptureInPane = later(async () => (await import('../capture/InPane')).InPane);

/** One projector in one mode: cautions, set-up, readings, results. */
export function Measure({ store }: { readonly store: Store }) {
  const capture = store.capture.service.value;
  if (capture?.where.value === 'pane') return <CaptureInPane capture={capture} />;
  return (
    <>
      {store.example.isOffered.value && <ExampleCard store={store} />}
      <Cautions cautions={store.cautions} />
      <NewRun store={store} />
      <SpotCard store={store} />
      <BatchCard store={store} />
      <TestFields />
      <CaptureCard store={store} />
      <SpotResultCard store={store} />
      <RunCard store={store} />
      <PasteCard store={store} />
    </>
  );
}
