import { isOpen } from '../order';
import type { CaptureStore } from '../store';
import look from './capture.module.css';
import own from './Head.module.css';

/** What is captured, how far it is, and whether everything stands in the workbook. */
export function Head({ store }: { readonly store: CaptureStore }) {
  const task = store.task.value;
  const all = store.steps.value.length;
  const left = store.left.value;
  const waiting = store.waiting.value;
  const isKept = store.parts.outbox.isKept.value;
  const trouble = store.trouble.value;
  return (
    <header class={own.head}>
      <h1 class={look.spoken}>Guided capture</h1>
      {task && (
        <>
          <progress max={all} value={all - left} aria-label="readings taken" />
          <p class={own.figures}>
            <span>
              <strong>{left}</strong> of {all} left
            </span>
            <span class={waiting > 0 ? own.waits : ''}>
              {waiting > 0
                ? `${waiting} on the way to the workbook`
                : store.steps.value.some((step) => !isOpen(step))
                  ? 'all in the workbook'
                  : ''}
            </span>
          </p>
          <p class={own.about}>
            {task.about || task.sheet} <span class={look.quiet}>on sheet “{task.sheet}”</span>
          </p>
        </>
      )}
      {trouble && (
        <p class={look.trouble} role="alert">
          {trouble}
        </p>
      )}
      {!isKept && (
        <p class={look.trouble}>
          This browser keeps nothing: leave the window open until everything is in the workbook.
        </p>
      )}
    </header>
  );
}
