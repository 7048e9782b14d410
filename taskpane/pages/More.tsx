import look from '../components/look.module.css';
import type { Store } from '../store';
import { EntryList } from './EntryList';
import { TOOLS } from './entries';

/** What is about the workbook as a whole. */
export function More({ store }: { readonly store: Store }) {
  return (
    <section class={look.card} aria-labelledby="more-title">
      <h2 id="more-title">More</h2>
      <EntryList entries={TOOLS} onOpen={store.open} />
    </section>
  );
}
