import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { CHECKS, clock, WARM_UP_MINUTES } from '../before';
import type { CaptureStore } from '../store';
import own from './BeforeReading.module.css';
import look from './capture.module.css';

/** What is done before the first reading. Nothing of it is enforced; what was not confirmed is noted on the sheet. */
export function BeforeReading({ store }: { readonly store: CaptureStore }) {
  const before = store.before.value!;
  const { done, zoom } = before.values.value;
  const known = store.task.value!;
  const mode = useSignal(known.mode);
  return (
    <form
      class={look.column}
      onSubmit={(event) => {
        event.preventDefault();
        store.begin(mode.value);
      }}
    >
      <h2>Steps before</h2>
      <WarmUp store={store} />
      {known.cells.mode && (
        <label>
          Picture mode and light setting
          <input
            type="text"
            value={mode.value}
            maxLength={120}
            autocomplete="off"
            onInput={(event) => {
              mode.value = event.currentTarget.value;
            }}
          />
        </label>
      )}
      <label>
        Zoom, as the menu or the ring shows it
        <input
          type="text"
          value={zoom}
          maxLength={60}
          autocomplete="off"
          onInput={(event) => before.change({ zoom: event.currentTarget.value })}
        />
      </label>
      <fieldset>
        <legend>Confirmed</legend>
        {CHECKS.map(({ id, label }) => (
          <label class={look.check} key={id}>
            <input
              type="checkbox"
              checked={done.includes(id)}
              onChange={(event) => before.tick(id, event.currentTarget.checked)}
            />
            {label}
          </label>
        ))}
      </fieldset>
      <button type="submit" class={look.main}>
        Begin reading
      </button>
      <p class={look.quiet}>What is not confirmed is noted on the sheet; nothing is enforced.</p>
    </form>
  );
}

/** Counts down on the clock, so that it goes on while the window is closed. */
function WarmUp({ store }: { readonly store: CaptureStore }) {
  const before = store.before.value!;
  const { now } = store.parts;
  const time = useSignal(now());
  const { minutes } = before.values.value;
  const isWarming = before.isWarming.value;
  useEffect(() => {
    if (!isWarming) return;
    const timer = setInterval(() => {
      time.value = now();
    }, 1000);
    return () => clearInterval(timer);
  }, [isWarming, now, time]);
  const left = before.left(time.value);
  return (
    <div class={own.warm}>
      <p>
        Warm-up{' '}
        <span class={own.clock} role="timer">
          {left > 0 ? clock(left) : 'over'}
        </span>
      </p>
      <label>
        minutes
        <input
          type="number"
          min="0"
          max="240"
          value={minutes}
          onInput={(event) => {
            const wanted = event.currentTarget.valueAsNumber;
            before.change({
              minutes: Number.isFinite(wanted) ? Math.min(240, Math.max(0, wanted)) : WARM_UP_MINUTES,
            });
          }}
        />
      </label>
      <button
        type="button"
        onClick={() => {
          time.value = now();
          before.change({ since: isWarming ? null : now() });
        }}
      >
        {isWarming ? 'Reset' : 'Light is on: start'}
      </button>
    </div>
  );
}
