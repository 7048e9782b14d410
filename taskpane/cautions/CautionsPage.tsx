import { Action } from '../components/Action';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { CautionList } from './Cautions';
import { cautionsOf } from './state';

/** The cautions, whenever they are wanted. */
export function CautionsPage({ store }: { readonly store: Store }) {
  return (
    <section class={look.card} aria-labelledby="cautions-title">
      <h2 id="cautions-title">Before you measure</h2>
      <CautionList />
      <Action onAct={() => void cautionsOf(store).read().then(store.back)}>I have read this</Action>
    </section>
  );
}
