import { useSignal } from '@preact/signals';
import { Action } from '../../components/Action';
import { Choice } from '../../components/Choice';
import { Fold } from '../../components/Fold';
import look from '../../components/look.module.css';
import { Questions } from '../../components/Questions';
import { Report } from '../../components/Report';
import { Tick } from '../../components/Tick';
import { count, countOf, type Pasted } from '../../parse/block';
import type { Store } from '../../store';
import { pasteOf } from '../paste';
import { PastePreview } from './PastePreview';

/** Takes a block of readings from elsewhere, shows how it was understood, and writes it when asked. */
export function PasteCard({ store }: { readonly store: Store }) {
  const isOpen = useSignal(false);
  const { troubles } = store;
  const paste = pasteOf(store);
  if (paste.choices.value.length === 0) return null;
  const pasted = paste.pasted.value;
  return (
    <Fold
      title="Paste readings"
      gist="from a sheet, a CSV or the meter’s log"
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <Choice
        id="paste-into"
        label="Into"
        value={paste.chosen.value?.id ?? ''}
        choices={paste.choices.value.map(({ id, words }) => [id, words])}
        onPick={paste.choose}
      />
      <div class={look.field}>
        <label for="paste-text">Readings</label>
        <textarea
          id="paste-text"
          rows={5}
          spellcheck={false}
          aria-describedby="paste-hint"
          value={paste.text.value}
          onInput={(event) => paste.type(event.currentTarget.value)}
        />
        <p id="paste-hint" class={look.quiet}>
          As they lie on the screen, or one after another: in a row, a column, or the meter’s own log of
          number, date, time and reading. Write “over” where the meter was over range.
        </p>
      </div>
      {pasted && <Understood store={store} pasted={pasted} />}
      <Action
        isMain
        isOff={!paste.isReady.value || troubles.busy.value !== ''}
        onAct={() => void paste.write()}
      >
        {paste.isReady.value && pasted
          ? `Write ${count(countOf(pasted.blocks, 'number', 'over'), 'reading')}`
          : 'Write to the sheet'}
      </Action>
      <Report words={paste.report.value} />
    </Fold>
  );
}

function Understood({ store, pasted }: { readonly store: Store; readonly pasted: Pasted }) {
  const paste = pasteOf(store);
  const empty = countOf(pasted.blocks, 'empty');
  const replaced = paste.replaced.value;
  return (
    <>
      {pasted.how.length > 0 && <p class={look.quiet}>{pasted.how.join(' ')}</p>}
      <PastePreview blocks={pasted.blocks} />
      <div role="status">
        {pasted.problems.map((problem) => (
          <p key={problem} class={look.error}>
            {problem}
          </p>
        ))}
      </div>
      <Questions questions={pasted.questions} onAnswer={paste.decide} />
      {pasted.isSequence && (
        <Tick
          id="paste-turn"
          isOn={paste.turn.value === 'there and back'}
          onTick={(isOn) => paste.decide({ turn: isOn ? 'there and back' : 'from the left' })}
        >
          Every second row was read from right to left
        </Tick>
      )}
      {pasted.problems.length > 0 && <p class={look.quiet}>Nothing is written before this is put right.</p>}
      {empty > 0 && (
        <p class={look.quiet}>{count(empty, 'empty cell')}: what stands on the sheet there stays.</p>
      )}
      {paste.isReady.value && replaced > 0 && (
        <p class={look.quiet}>
          {count(replaced, 'cell')} on the sheet already filled; pasted readings take their place.
        </p>
      )}
    </>
  );
}
