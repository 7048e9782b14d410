import { useSignal } from '@preact/signals';
import { ComparisonCard } from '../compare/ComparisonCard';
import { NewComparison } from '../compare/NewComparison';
import { TroubleBox } from '../components/TroubleBox';
import type { Store } from '../store';

/** Runs of this workbook side by side, and which of them differ. */
export function Compare({ store }: { readonly store: Store }) {
  const { compare, facts } = store;
  const isOpen = useSignal(compare.comparisons.peek().length === 0);
  const trouble = compare.trouble.value;
  return (
    <>
      <NewComparison store={store} isOpen={isOpen} />
      {trouble && <TroubleBox trouble={trouble} facts={facts} />}
      {compare.reading.value && <ComparisonCard store={store} reading={compare.reading.value} />}
    </>
  );
}
