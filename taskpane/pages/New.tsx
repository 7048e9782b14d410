import { Action } from '../components/Action';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { EntryList } from './EntryList';
import { FORMS } from './entries';

/** Everything that can be made. */
export function New({ store }: { readonly store: Store }) {
  return (
    <section class={look.card} aria-labelledby="new-title">
      <h2 id="new-title">New sheet</h2>
      <EntryList entries={FORMS} onOpen={store.open} />
      <Action onAct={() => store.open('templates')}>A whole set from a template</Action>
    </section>
  );
}
