import { useEffect, useRef } from 'preact/hooks';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import type { Store } from '../store';

/** How one came to this sheet, and what else is in front meanwhile. */
export function Arrived({ store }: { readonly store: Store }) {
  const { front } = store;
  const words = front.arrival.value;
  const other = front.other.value;
  const message = useRef<HTMLParagraphElement>(null);
  // The button that was pressed went with its page; the focus goes on to what it did.
  useEffect(() => {
    if (words) message.current?.focus();
  }, [words]);
  return (
    <>
      {words && (
        <p ref={message} class={look.done} tabIndex={-1} role="status">
          {words}
        </p>
      )}
      {other !== undefined && (
        <div class={look.notice} role="status">
          <p>
            “{other}” is in front now. What you type here is about “{front.sheet.value?.sheet}”.
          </p>
          <Action onAct={front.follow}>Show “{other}”</Action>
        </div>
      )}
    </>
  );
}
