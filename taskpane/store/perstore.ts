import type { Store } from './type';

/** State of a step that outlives looking at another page: made once for each store. */
export function perStore<T>(create: (store: Store) => T): (store: Store) => T {
  const kept = new WeakMap<Store, T>();
  return (store) => {
    const found = kept.get(store) ?? create(store);
    kept.set(store, found);
    return found;
  };
}
