import { Action } from '../../components/Action';
import look from '../../components/look.module.css';
import { count } from '../../parse/block';
import type { Store } from '../../store';
import type { FieldProgress, Place } from '../progress';
import type { RunView } from '../view';
import { FieldMap } from './FieldMap';
import own from './Progress.module.css';

/** How far the readings are, what is missing by field and point, and a way to the next one. */
export function Progress({ store, run }: { readonly store: Store; readonly run: RunView }) {
  const addresses = store.workbook.reading.value?.values ?? {};
  const isDone = ({ done, of, wrong }: FieldProgress) => done === of && wrong.length === 0;
  const done = run.fields.filter(isDone);
  const line = (progress: FieldProgress) => (
    <li key={progress.field.name}>
      <FieldMap progress={progress} cells={addresses[progress.field.name]!.address} />
      <div>
        <p>
          <span class={own.label}>{progress.field.label}</span> {progress.done} of {progress.of}
        </p>
        <FieldState progress={progress} />
      </div>
    </li>
  );
  return (
    <section class={`${look.card} ${own.progress}`} aria-labelledby="progress-title">
      <h2 id="progress-title">
        {run.done} of {count(run.of, 'reading')}
      </h2>
      <progress max={run.of} value={run.done} aria-label="white and colour readings taken" />
      {run.lost.map(({ name, label }) => (
        <p key={name} class={look.error}>
          The sheet has lost the name <code>{name}</code>: its {label} readings cannot be found. “Check this
          sheet” under Check offers to set it again.
        </p>
      ))}
      {done.length < run.fields.length && (
        <ul class={own.fields}>{run.fields.filter((one) => !isDone(one)).map(line)}</ul>
      )}
      {done.length > 0 && (
        <details>
          <summary tabIndex={0}>
            {done.length} {done.length === 1 ? 'field is' : 'fields are'} complete
          </summary>
          <ul class={own.fields}>{done.map(line)}</ul>
        </details>
      )}
      {run.next && (
        <Action isOff={store.troubles.busy.value !== ''} onAct={() => void store.goTo(run.next!.place.cell)}>
          Go to {run.next.label}, {run.next.place.words}
        </Action>
      )}
    </section>
  );
}

function FieldState({ progress: { missing, over, wrong, of } }: { readonly progress: FieldProgress }) {
  return (
    <>
      {missing.length > 0 && (
        <p class={look.quiet}>missing: {missing.length === of && of > 1 ? `all ${of}` : words(missing)}</p>
      )}
      {over.length > 0 && (
        <p class={look.error}>over range: {words(over)}. Choose a higher range and read again.</p>
      )}
      {wrong.map(({ place, message }) => (
        <p key={place.cell} class={look.error}>
          {message}
        </p>
      ))}
    </>
  );
}

function words(places: readonly Place[]): string {
  return places.map((place) => place.words).join(', ');
}
