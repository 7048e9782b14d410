import { useLayoutEffect, useRef } from 'preact/hooks';
import { lightOf, percent } from '../guards/light';
import { type Command, commandOf } from '../keys';
import { isOpen, nextOpen } from '../order';
import { number } from '../prompt';
import type { CaptureStore } from '../store';
import look from './capture.module.css';
import own from './Done.module.css';
import { Press } from './Entry';
import { Panels } from './Panels';

/** Keys of the number entry that make sense without one. */
const COMMANDS: readonly Command[] = ['undo', 'back', 'jump'];

/** All readings are there, or what is left of them; the closing reading compared with the first. */
export function Done({ store }: { readonly store: CaptureStore }) {
  const steps = store.steps.value;
  const next = nextOpen(steps, (step) => store.groupOf(step).isLast);
  const waiting = store.waiting.value;
  const title = useRef<HTMLHeadingElement>(null);
  // The number entry has gone, and with it the focus: keys and screen reader go on from here.
  useLayoutEffect(() => title.current?.focus(), []);
  const press = (event: KeyboardEvent) => {
    const command = store.panel.peek() === '' ? commandOf(event, '') : undefined;
    if (!command || !COMMANDS.includes(command) || event.repeat) return;
    event.preventDefault();
    store.command(command);
  };
  return (
    <section class={look.column} aria-labelledby="done-title" onKeyDown={press}>
      <h2 id="done-title" ref={title} tabIndex={-1}>
        {next ? `${steps.filter(isOpen).length} left open` : 'All readings are taken'}
      </h2>
      {!next && <Answers store={store} />}
      <Drift store={store} />
      {store.remark.value && <p class={look.remark}>{store.remark.value}</p>}
      <p>
        {waiting > 0
          ? `${waiting} still on the way to the workbook: leave the window open until they are there.`
          : 'Everything stands in the workbook, and the window can be closed.'}
      </p>
      {!next && waiting === 0 && <p>{NEXT[store.task.value?.kind ?? 'run']}</p>}
      <div class={look.line}>
        {next && (
          <button type="button" class={look.main} onClick={() => store.jump(next.key)}>
            Go on with {next.label}, {next.point}
          </button>
        )}
        <Press store={store} command="back">
          Back to the last reading
        </Press>
        <Press store={store} command="jump">
          Jump to a point
        </Press>
        <Press store={store} command="undo" isOff={store.undoes.value === ''}>
          Undo
        </Press>
      </div>
      <Panels store={store} onDone={() => title.current?.focus()} />
    </section>
  );
}

/** Where the way goes on, in the pane. */
const NEXT = {
  run: 'Next, in the pane: under the results stands what makes most of the doubt; then the certificate, or another run to compare it with.',
  spot: 'Next, in the pane: the brightest measured in full, for its lumens.',
  batch:
    'Next, in the pane: the units that do not pass, each with a run of its own; then the results into the lot.',
} as const;

/** What the readings came to, as soon as the sheet has calculated it. */
function Answers({ store }: { readonly store: CaptureStore }) {
  const answers = store.task.value?.answers ?? [];
  if (answers.length === 0) return null;
  return (
    <dl class={own.answers}>
      {answers.map(({ label, text, decision }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>
            {text}
            {decision && <span class={own.decided}>{decision}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}

function Drift({ store }: { readonly store: CaptureStore }) {
  const steps = store.steps.value;
  const last = steps.find(({ peers }) => peers === 'last');
  const first =
    last && steps.find(({ group, u, v }) => group === 'WhiteReadings' && u === last.u && v === last.v);
  const [a, b] = [first && lightOf(first), last && lightOf(last)];
  if (!a || b === undefined) return null;
  return (
    <p>
      White centre: {number(a)} at the beginning, {number(b)} at the end, {percent(b / a - 1)}.
    </p>
  );
}
