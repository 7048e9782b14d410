import type { Store } from '../store';
import { CheckCard } from '../trace/CheckCard';
import { CopyCard } from '../trace/CopyCard';
import { LogCard } from '../trace/LogCard';
import { SealCard } from '../trace/SealCard';
import { TraceCard } from '../trace/TraceCard';
import { UpdateCard } from '../trace/UpdateCard';

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
