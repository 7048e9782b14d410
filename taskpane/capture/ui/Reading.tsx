import { useRef } from 'preact/hooks';
import { upper } from '../prompt';
import type { CaptureStore } from '../store';
import { tapeOf } from '../task';
import look from './capture.module.css';
import { cautionAt } from './caution';
import { Entry } from './Entry';
import { Panels } from './Panels';
import { Picture } from './Picture';
import own from './Reading.module.css';
import { ScreenLine } from './ScreenLine';
import { Tools } from './Tools';

/** One reading: which field and point, the number, and what there is to say about it. */
export function Reading({ store }: { readonly store: CaptureStore }) {
  const step = store.current.value!;
  const task = store.task.value!;
  const tape = tapeOf(step, task);
  const entry = useRef<HTMLInputElement>(null);
  const focusEntry = () => entry.current?.focus();
  return (
    <div class={own.reading}>
      <section class={own.where} aria-labelledby="where-title">
        <h2 id="where-title">
          <span class={own.swatch} data-light={step.light} aria-hidden="true" />
          {upper(step.label)}
          <span class={own.point}>
            {step.word} {step.number}, {step.point}
          </span>
        </h2>
        <Picture store={store} />
        {tape && (
          <p class={own.tape}>
            <strong>{tape.left.toFixed(1)}</strong> cm from left, <strong>{tape.top.toFixed(1)}</strong> cm
            from top
          </p>
        )}
      </section>
      <section class={own.taking} aria-label="The number on the display">
        <Entry store={store} field={entry} />
        {store.remark.value && <p class={look.remark}>{store.remark.value}</p>}
        <ScreenLine store={store} />
        <p class={own.caution}>{cautionAt(step)}</p>
        <Tools store={store} onDone={focusEntry} />
        <Panels store={store} onDone={focusEntry} />
      </section>
    </div>
  );
}
