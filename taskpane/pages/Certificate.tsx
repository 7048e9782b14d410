import { Certificates } from '../accept/Certificates';
import { acceptOf } from '../accept/state';
import type { Store } from '../store';

/** One page of a run. */
export function Certificate({ store }: { readonly store: Store }) {
  return <Certificates store={store} accept={acceptOf(store)} />;
}
