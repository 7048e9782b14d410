import { useLayoutEffect, useRef } from 'preact/hooks';
import { stateOf } from '../order';
import type { CaptureStore } from '../store';
import type { Group, Step } from '../task';
import own from './Jump.module.css';

export interface JumpProps {
  readonly store: CaptureStore;
  readonly onDone: () => void;
}

const WORDS = { open: 'open', over: 'over range', unreadable: 'no reading' } as const;

/** Every reading as it lies on the screen: arrow keys go about in a field, Tab to the next field. */
export function Jump({ store, onDone }: JumpProps) {
  const task = store.task.value!;
  const current = store.current.value;
  const panel = useRef<HTMLFieldSetElement>(null);
  // Before the next key can come: it belongs to this panel already.
  useLayoutEffect(() => {
    const first = panel.current?.querySelector<HTMLElement>('[aria-current]');
    (first ?? panel.current?.querySelector('button'))?.focus();
  }, []);
  const jump = (step: Step) => {
    store.jump(step.key);
    onDone();
  };
  return (
    <fieldset ref={panel} class={own.jump}>
      <legend>Jump to a point</legend>
      {task.groups.map((group) => (
        <Field key={group.id} group={group} current={current} onJump={jump} />
      ))}
    </fieldset>
  );
}

interface FieldProps {
  readonly group: Group;
  readonly current: Step | undefined;
  readonly onJump: (step: Step) => void;
}

function Field({ group, current, onJump }: FieldProps) {
  const { steps, columns, label } = group;
  // One stop of the Tab key a field: where the current reading is, else at its first open one, else at its first.
  const stop =
    steps.find(({ key }) => key === current?.key) ??
    steps.find((step) => stateOf(step) !== 'taken') ??
    steps[0]!;
  return (
    <fieldset class={own.field} onKeyDown={(event) => arrow(event, columns)}>
      <legend>{label}</legend>
      <div class={own.grid} style={{ gridTemplateColumns: `repeat(${columns}, 1fr)` }}>
        {steps.map((step) => {
          const state = stateOf(step);
          return (
            <button
              key={step.key}
              type="button"
              data-state={state}
              tabIndex={step.key === stop.key ? 0 : -1}
              aria-current={step.key === current?.key ? 'step' : undefined}
              aria-label={`${step.label}, ${step.point}, ${state === 'taken' ? step.value : WORDS[state]}`}
              onClick={() => onJump(step)}
            >
              {state === 'taken' ? String(step.value) : state === 'over' ? 'over' : '\u00b7'}
            </button>
          );
        })}
      </div>
    </fieldset>
  );
}

const BY: Readonly<Record<string, (columns: number) => number>> = {
  ArrowLeft: () => -1,
  ArrowRight: () => 1,
  ArrowUp: (columns) => -columns,
  ArrowDown: (columns) => columns,
};

function arrow(event: KeyboardEvent, columns: number): void {
  const by = BY[event.key];
  if (!by) return;
  event.preventDefault();
  const cells = [...(event.currentTarget as HTMLElement).querySelectorAll('button')];
  const at = cells.indexOf(document.activeElement as HTMLButtonElement);
  cells[at + by(columns)]?.focus();
}
