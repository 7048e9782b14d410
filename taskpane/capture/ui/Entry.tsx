import type { RefObject } from 'preact';
import { useLayoutEffect } from 'preact/hooks';
import { commandOf } from '../keys';
import { number } from '../prompt';
import type { CaptureStore } from '../store';
import look from './capture.module.css';
import own from './Entry.module.css';
import { Question } from './Question';

export interface EntryProps {
  readonly store: CaptureStore;
  readonly field: RefObject<HTMLInputElement | null>;
}

/** The number entry with range factor and unit beside it: every key of the window works while it has the focus. */
export function Entry({ store, field }: EntryProps) {
  const { range, lock, task, text } = store;
  const asking = store.asking.value;
  // A number typed while a question about the last one stands is another number: it takes its place.
  useLayoutEffect(() => {
    if (asking) field.current?.select();
  }, [asking, field]);
  // Before the next key can come: it is meant for here already.
  useLayoutEffect(() => field.current?.focus(), [field]);
  useLayoutEffect(() => {
    const bring = (event: KeyboardEvent) => bringBack(store, event, field.current!);
    document.addEventListener('keydown', bring);
    return () => document.removeEventListener('keydown', bring);
  }, [field, store]);
  return (
    <div class={own.entry}>
      <label for="reading">Number on the display</label>
      <input
        id="reading"
        ref={field}
        class={own.number}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        spellcheck={false}
        value={text.value}
        aria-invalid={asking !== undefined}
        aria-describedby="factor"
        onInput={(event) => store.type(event.currentTarget.value)}
        onKeyDown={(event) => press(store, event, event.currentTarget)}
      />
      <div class={`${look.line} ${own.ranges}`}>
        <Press store={store} command="lower range" isOff={lock.value !== undefined} name="Lower range">
          −
        </Press>
        <p id="factor" class={own.factor}>
          × {number(range.value)} <span class={own.unit}>{task.value!.unit}</span>
        </p>
        <Press store={store} command="higher range" isOff={lock.value !== undefined} name="Higher range">
          +
        </Press>
        {task.value!.cells.unit && (
          <Press store={store} command="unit" name="lx / fc, switch the unit">
            lx / fc
          </Press>
        )}
      </div>
      <Question store={store} onAnswered={() => field.current?.focus()} />
      {!asking && (
        <div class={`${look.line} ${own.takes}`}>
          <Press store={store} command="accept" isMain>
            Take
          </Press>
          <Press store={store} command="over range">
            Over range
          </Press>
          <Press store={store} command="undo" isOff={store.undoes.value === ''}>
            Undo
          </Press>
        </div>
      )}
      {lock.value && <p class={look.quiet}>{lock.value}</p>}
    </div>
  );
}

const TYPED_INTO = 'input:not([type="radio"], [type="checkbox"]), textarea, select';

/** Keys while nothing has the focus, and digits while a button has, are meant for here: in the dark nobody looks. */
function bringBack(store: CaptureStore, event: KeyboardEvent, field: HTMLInputElement): void {
  const { key, ctrlKey, altKey, metaKey, defaultPrevented } = event;
  // The client library prevents every Escape; it still means us.
  const isTaken = defaultPrevented && key !== 'Escape';
  if (ctrlKey || altKey || metaKey || isTaken || key === 'Tab') return;
  const isLost = document.activeElement === null || document.activeElement === document.body;
  if (!isLost && (!/^\d$/.test(key) || document.activeElement!.matches(TYPED_INTO))) return;
  field.focus();
  if (isLost) press(store, event, field);
}

/** A question's own keys come first, then the window's; everything else types. */
function press(store: CaptureStore, event: KeyboardEvent, field: HTMLInputElement): void {
  const asked = store.asking.peek();
  const own =
    asked && asked.kind !== 'doubt' && asked.choices.find(({ key }) => key === event.key && /^\d$/.test(key));
  if (own) {
    event.preventDefault();
    store.answer(own);
    return;
  }
  const command = commandOf(event, field.value);
  if (!command) return;
  event.preventDefault();
  // A key held down must not take a reading twice, nor run back through the points.
  if (!event.repeat) store.command(command);
}

interface PressProps {
  readonly store: CaptureStore;
  readonly command: Parameters<CaptureStore['command']>[0];
  readonly children: string;
  readonly name?: string;
  readonly isMain?: boolean;
  readonly isOff?: boolean;
}

/** A button for a command. With a mouse or a finger the focus stays in the number entry. */
export function Press({ store, command, children, name, isMain = false, isOff = false }: PressProps) {
  return (
    <button
      type="button"
      class={isMain ? look.main : ''}
      aria-label={name}
      aria-disabled={isOff}
      onPointerDown={(event) => event.preventDefault()}
      onMouseDown={(event) => event.preventDefault()}
      onClick={() => store.command(command)}
    >
      {children}
    </button>
  );
}
