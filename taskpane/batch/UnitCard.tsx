import { useSignal } from '@preact/signals';
import { Action } from '../components/Action';
import { Fold } from '../components/Fold';
import look from '../components/look.module.css';
import { wordsOf } from './BatchState';
import own from './batch.module.css';
import type { BatchProps } from './NewBatch';
import type { BatchStep } from './state';
import type { UnitLine } from './view';

/** One unit of the batch: its row, a full run of it, and that run's readings back into the row. */
export function UnitCard({ store, step }: BatchProps) {
  const isOpen = useSignal(false);
  const unit = step.unit.value;
  return (
    <Fold
      kind="group"
      title="One unit"
      gist="its row, a full run of it and back"
      isOpen={isOpen.value || unit !== undefined}
      onFold={(open) => {
        isOpen.value = open;
        if (!open) step.lookAt(undefined);
      }}
    >
      <div class={look.field}>
        <label for="batch-unit">Serial number or place</label>
        <input
          id="batch-unit"
          type="text"
          autocomplete="off"
          spellcheck={false}
          value={step.wanted.value}
          onInput={(event) => step.search(event.currentTarget.value)}
        />
      </div>
      <Found step={step} />
      {unit && <Unit store={store} step={step} unit={unit} />}
    </Fold>
  );
}

function Found({ step }: { readonly step: BatchStep }) {
  if (step.wanted.value.trim() === '') return null;
  const found = step.found.value;
  if (found.length === 0)
    return <p role="status">No unit of this batch fits: try a part of its serial number or of its place.</p>;
  return (
    <ul class={own.list}>
      {found.map((unit) => (
        <li key={unit.line}>
          <button type="button" class={own.row} onClick={() => step.lookAt(unit.line)}>
            <strong>{unit.serial}</strong>
            {unit.place && `, ${unit.place}`}
          </button>
        </li>
      ))}
    </ul>
  );
}

function Unit({ store, step, unit }: BatchProps & { readonly unit: UnitLine }) {
  const isOff = store.troubles.busy.value !== '';
  const runs = step.runs.value;
  const { text, isBad } = step.unitReport.value;
  return (
    <div class={own.unit}>
      <p>
        <strong>{unit.serial || 'No serial number'}</strong>
        {unit.place && `, ${unit.place}`}: {wordsOf(unit)}
      </p>
      <div class={look.answers}>
        <Action isOff={isOff} onAct={() => void step.goTo(unit.cell)}>
          Go to its row
        </Action>
        <Action isOff={isOff} onAct={() => void step.openRun()}>
          Open as a run sheet
        </Action>
      </div>
      {runs.length > 0 && (
        <>
          <div class={look.field}>
            <label for="batch-run">Run sheet of this unit</label>
            <select
              id="batch-run"
              value={step.chosenRun.value}
              aria-describedby="batch-run-note"
              onChange={(event) => step.chooseRun(event.currentTarget.value)}
            >
              {step.chosenRun.value === '' && <option value="">none chosen yet</option>}
              {runs.map((sheet) => (
                <option key={sheet} value={sheet}>
                  {sheet}
                </option>
              ))}
            </select>
            <div id="batch-run-note" role="status">
              {step.runsSay.value && <p class={look.quiet}>{step.runsSay.value}</p>}
            </div>
          </div>
          <Action isOff={isOff} onAct={() => void step.takeRun()}>
            Take its readings into the row
          </Action>
        </>
      )}
      <p class={isBad ? look.error : look.done} role="status">
        {text}
      </p>
    </div>
  );
}
