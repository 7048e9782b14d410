import { useLayoutEffect, useRef } from 'preact/hooks';
import type { CaptureStore } from '../store';
import look from './capture.module.css';

/** Rest. What was read is kept; the place is where the first open reading is. */
export function Paused({ store }: { readonly store: CaptureStore }) {
  const button = useRef<HTMLButtonElement>(null);
  // Before the next key can come: it is meant for here already.
  useLayoutEffect(() => button.current?.focus(), []);
  return (
    <section class={look.column} aria-labelledby="paused-title">
      <h2 id="paused-title">Paused</h2>
      <p>
        The window may be closed meanwhile: it goes on where it stopped. Leave the projector on, or warm it up
        again; after a longer pause take the first white centre once more to see whether it has drifted.
      </p>
      <button ref={button} type="button" class={look.main} onClick={() => store.resume()}>
        Resume
      </button>
    </section>
  );
}
