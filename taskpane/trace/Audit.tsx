import type { Store } from '../store';
import { CheckCard } from './CheckCard';
import { CopyCard } from './CopyCard';
import { LogCard } from './LogCard';
import { SealCard } from './SealCard';
import { TraceCard } from './TraceCard';
import { UpdateCard } from './UpdateCard';

/** For someone who was not there: follow a number, check the sheets, seal them. */
export function Audit({ store }: { readonly store: Store }) {
  return (
    <>
      <TraceCard store={store} />
      <CheckCard store={store} />
      <UpdateCard store={store} />
      <SealCard store={store} />
      <CopyCard store={store} />
      <LogCard store={store} />
    </>
  );
}
