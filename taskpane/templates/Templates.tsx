import { useEffect, useRef } from 'preact/hooks';
import type { Store } from '../store';
import { ApplyCard } from './ApplyCard';
import { ImportCard } from './ImportCard';
import { KeptCard } from './KeptCard';
import { SaveCard } from './SaveCard';
import { templatesOf } from './state';
import own from './Templates.module.css';

/** Set-ups of bids: kept in the workbook, given on as files, built in one go. */
export function Templates({ store }: { readonly store: Store }) {
  const step = templatesOf(store);
  const chosen = step.applying.template.value;
  const top = useRef<HTMLDivElement>(null);
  // What was chosen below is built above: the eye and the focus follow.
  useEffect(() => {
    if (chosen) top.current?.focus();
  }, [chosen]);
  return (
    <>
      <div ref={top} tabIndex={-1} class={own.anchor}>
        <ApplyCard store={store} step={step} />
      </div>
      <KeptCard store={store} step={step} />
      <SaveCard store={store} step={step} />
      <ImportCard store={store} step={step} />
    </>
  );
}
