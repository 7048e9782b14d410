import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { CaptureStore } from '../store';
import look from './capture.module.css';

export interface NoteFormProps {
  readonly store: CaptureStore;
  readonly onDone: () => void;
}

/** A line for the sheet's notes, with the time and the point before it. */
export function NoteForm({ store, onDone }: NoteFormProps) {
  const words = useSignal('');
  const field = useRef<HTMLInputElement>(null);
  // Before the next key can come: it is meant for here already.
  useLayoutEffect(() => field.current?.focus(), []);
  return (
    <form
      class={look.column}
      onSubmit={(event) => {
        event.preventDefault();
        store.note(words.value);
        onDone();
      }}
    >
      <label>
        Note for this reading
        <input
          ref={field}
          type="text"
          maxLength={300}
          autocomplete="off"
          value={words.value}
          onInput={(event) => {
            words.value = event.currentTarget.value;
          }}
        />
      </label>
      <button type="submit">Note it</button>
    </form>
  );
}
