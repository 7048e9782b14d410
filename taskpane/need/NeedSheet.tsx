import { useSignal } from '@preact/signals';
import { whole } from '../../src/procurement/wording/format';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import type { BodyProps } from '../sheet/body';
import type { Store } from '../store';
import own from './NeedSheet.module.css';
import { type NeedStep, needOf } from './state';
import type { NeedView } from './view';

/** A need sheet of the workbook: it follows every change on the sheet. */
export function NeedSheet({ store }: BodyProps) {
  const step = needOf(store);
  const { followed } = step;
  const view = step.view.value;
  const trouble = followed.trouble.value;
  if (!view && !trouble) return null;
  return (
    <section class={look.card} aria-labelledby="need-sheet-title">
      <h2 id="need-sheet-title">On the sheet</h2>
      {trouble && <TroubleBox trouble={trouble} facts={store.facts} />}
      {view && (
        <>
          <Rooms view={view} />
          <div>
            <Action
              onAct={() => {
                step.takeSheet();
                store.open('need');
              }}
            >
              Take the rooms back into the form
            </Action>
          </div>
          <p class={look.quiet} role="status">
            {step.sheetReport.value}
          </p>
        </>
      )}
      {view?.text !== undefined && (
        <Words key={view.sheet} store={store} step={step} view={view} text={view.text} />
      )}
    </section>
  );
}

function Rooms({ view }: { readonly view: NeedView }) {
  const { rooms, white, colour, differing } = view;
  return (
    <>
      <table class={`${look.beside} ${own.rooms}`}>
        <caption>To ask for as computed, lm</caption>
        <thead>
          <tr>
            <th scope="col" class={own.first}>
              Room
            </th>
            <th scope="col">white</th>
            <th scope="col">colour</th>
          </tr>
        </thead>
        <tbody>
          {rooms.map((line, i) => (
            <tr key={i}>
              <th scope="row">{line.room}</th>
              <td>{typeof line.white === 'number' ? whole(line.white) : line.white}</td>
              <td>{line.colour === undefined ? '–' : whole(line.colour)}</td>
            </tr>
          ))}
        </tbody>
        {white !== undefined && colour !== undefined && (
          <tfoot>
            <tr>
              <th scope="row">Largest</th>
              <td>{whole(white)}</td>
              <td>{whole(colour)}</td>
            </tr>
          </tfoot>
        )}
      </table>
      {differing > 0 && (
        <p class={look.error}>
          {differing === 1 ? 'In one line' : `In ${differing} lines`} the function and the plain formula
          differ: look at the sheet before you use the figures.
        </p>
      )}
    </>
  );
}

interface WordsProps {
  readonly store: Store;
  readonly step: NeedStep;
  readonly view: NeedView;
  readonly text: string;
}

/** The words of the sheet to copy. What is edited here goes into the copy only. */
function Words({ store, step, view, text }: WordsProps) {
  const edited = useSignal<string | undefined>(undefined);
  const shown = edited.value ?? text;
  return (
    <div class={own.tender}>
      {view.isStale && (
        <div class={look.notice}>
          <p>The words do not name the largest need that the sheet computes now.</p>
          <Action isOff={store.troubles.busy.value !== ''} onAct={() => void step.renew()}>
            Write the first paragraph anew
          </Action>
        </div>
      )}
      <div class={look.field}>
        <label for="need-words">Text for the tender</label>
        <textarea
          class={look.prose}
          id="need-words"
          rows={12}
          value={shown}
          aria-describedby="need-words-note"
          onInput={(event) => {
            edited.value = event.currentTarget.value;
          }}
        />
        <p class={look.quiet} id="need-words-note">
          {edited.value === undefined
            ? 'As it stands on the sheet. What you change here goes into the copy only.'
            : 'Changed here; the sheet keeps its own words.'}
        </p>
      </div>
      {edited.value !== undefined && (
        <Action
          onAct={() => {
            edited.value = undefined;
          }}
        >
          Back to the words of the sheet
        </Action>
      )}
      <CopyText text={() => shown}>Copy the text</CopyText>
    </div>
  );
}
