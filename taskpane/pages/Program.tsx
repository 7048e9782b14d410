import { OpeningCard } from '../opening/OpeningCard';
import { SelfCheck } from '../selfcheck/SelfCheck';
import type { Store } from '../store';

/** What has to do with the spreadsheet program and this workbook in it. */
export function Program({ store }: { readonly store: Store }) {
  return (
    <>
      <SelfCheck store={store} />
      <OpeningCard store={store} />
    </>
  );
}
