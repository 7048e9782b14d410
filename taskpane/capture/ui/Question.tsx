import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Choice } from '../asking';
import type { CaptureStore } from '../store';
import look from './capture.module.css';
import own from './Question.module.css';

export interface QuestionProps {
  readonly store: CaptureStore;
  readonly onAnswered: () => void;
}

const KEY_NAMES: Readonly<Record<string, string>> = { Escape: 'Esc' };

/** A question about a number, with its answers and room for a reason. */
export function Question({ store, onAnswered }: QuestionProps) {
  const asking = store.asking.value;
  const words = useSignal('');
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (asking) box.current?.scrollIntoView?.({ block: 'nearest' });
  }, [asking]);
  if (!asking) return null;
  const give = (choice: Choice) => {
    store.answer(choice, words.value);
    words.value = '';
    onAnswered();
  };
  return (
    <div ref={box} class={own.question} role="alert">
      <p>{asking.message}</p>
      {asking.canNote && (
        <label>
          Reason, for the notes (may be left out)
          <input
            type="text"
            maxLength={200}
            value={words.value}
            autocomplete="off"
            onInput={(event) => {
              words.value = event.currentTarget.value;
            }}
            onKeyDown={(event) => {
              const choice = asking.choices.find(({ key }) => key === event.key && /^E/.test(key));
              if (!choice) return;
              event.preventDefault();
              give(choice);
            }}
          />
        </label>
      )}
      <div class={look.line}>
        {asking.choices.map((choice) => (
          <button
            key={choice.label}
            type="button"
            onPointerDown={(event) => event.preventDefault()}
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => give(choice)}
          >
            {choice.label} <kbd>{KEY_NAMES[choice.key] ?? choice.key}</kbd>
          </button>
        ))}
      </div>
    </div>
  );
}
