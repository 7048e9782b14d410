import { findingsOf } from '../../src/fields/surface';
import look from './fields.module.css';
import type { FieldsStore } from './store';

/** One line for as long as the pointer is there: the gravest thing wrong with the window. Nothing if nothing is. */
export function Hint({ store }: { readonly store: FieldsStore }) {
  const surface = store.surface.value;
  const first = store.trouble.value || (surface && findingsOf(surface)[0]?.text);
  return first ? <p class={look.hint}>{first} H shows the keys.</p> : null;
}
