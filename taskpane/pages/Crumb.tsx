import { useEffect, useRef, useState } from 'preact/hooks';
import look from '../components/look.module.css';
import { STEPS } from '../help/steps';
import { openHelp } from '../help/topic';
import type { Store } from '../store';
import own from './Crumb.module.css';
import type { Page } from './pages';

export interface CrumbProps {
  readonly store: Store;
  readonly above: Page;
  readonly page: Page;
}

/** The way back from a page: what was typed stays, or, cancelled, is as it was when the form was opened. */
export function Crumb({ store, above, page }: CrumbProps) {
  const restore = useRef<(() => void) | undefined>(undefined);
  const [canCancel, setCanCancel] = useState(false);
  useEffect(() => {
    let isHere = true;
    void import('../store/draft')
      .then(({ snapshotOf }) => snapshotOf(store, page.id))
      .then((found) => {
        if (!isHere) return;
        restore.current = found;
        setCanCancel(found !== undefined);
      });
    return () => {
      isHere = false;
    };
  }, [store, page]);
  return (
    <p class={own.crumb}>
      <button type="button" class={look.link} onClick={() => store.open(above.id)}>
        <span aria-hidden="true">‹ </span>
        {above.title}
      </button>
      <span aria-hidden="true"> / {page.title}</span>
      <span class={own.acts}>
        {STEPS.some((step) => step.page === page.id) && (
          <button type="button" class={look.link} onClick={() => openHelp(store, page.id)}>
            Help
          </button>
        )}
        {canCancel && (
          <button
            type="button"
            class={look.link}
            onClick={() => {
              restore.current?.();
              store.back();
            }}
          >
            Cancel
          </button>
        )}
      </span>
    </p>
  );
}
