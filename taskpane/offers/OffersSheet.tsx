import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import type { BodyProps } from '../sheet/body';
import own from './OffersSheet.module.css';
import { offersOf } from './state';
import { stateWords } from './words';

/** An offers sheet of the workbook: it follows every change on the sheet. */
export function OffersSheet({ store }: BodyProps) {
  const step = offersOf(store);
  const { followed } = step;
  const view = step.view.value;
  const trouble = followed.trouble.value;
  if (!view && !trouble) return null;
  return (
    <section class={look.card} aria-labelledby="offers-sheet-title">
      <h2 id="offers-sheet-title">On the sheet</h2>
      {trouble && <TroubleBox trouble={trouble} facts={store.facts} />}
      {view && (
        <>
          <p class={look.quiet}>{view.about}</p>
          {view.offers.length === 0 && (
            <p class={look.quiet}>
              No offer stands on the sheet yet: type them there, one a line, or import them in the form.
            </p>
          )}
          <ul class={`${look.judged} ${own.offers}`}>
            {view.offers.map(({ bidder, state, cost, questions }, i) => (
              <li key={i}>
                <p>
                  <strong>{bidder}</strong>: {stateWords(state)}
                </p>
                <p class={look.quiet}>
                  Over the years: {cost === 'ask' ? 'figures are missing' : cost || '–'}
                </p>
                {questions.length > 0 && <p class={look.quiet}>To ask back: {questions.join('; ')}.</p>}
                {view.chosen === bidder ? (
                  <p class={own.chosen}>✓ The chosen offer: linked run sheets take its rated figures.</p>
                ) : (
                  view.chosen !== undefined && (
                    <Action isOff={store.troubles.busy.value !== ''} onAct={() => void step.choose(bidder)}>
                      Choose <span class={look.spoken}>{bidder}</span>
                    </Action>
                  )
                )}
              </li>
            ))}
          </ul>
          {view.differing > 0 && (
            <p class={look.error}>
              {view.differing === 1 ? 'In one line' : `In ${view.differing} lines`} the function and the plain
              formula differ: look at the sheet before you use the figures.
            </p>
          )}
          <div>
            <Action
              onAct={() => {
                step.takeSheet();
                store.open('offers');
              }}
            >
              Take the offers back into the form
            </Action>
          </div>
        </>
      )}
    </section>
  );
}
