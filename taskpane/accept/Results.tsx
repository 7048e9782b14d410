import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import type { BodyProps } from '../sheet/body';
import { acceptOf } from './state';

/** A lot's sheet: results taken from run sheets, and where the lot stands; it follows every change. */
export function Results({ store, next }: BodyProps) {
  const accept = acceptOf(store);
  const { followed, taken } = accept;
  const lot = accept.lot.value;
  const trouble = followed.trouble.value;
  if (!lot && !trouble) return null;
  const isBusy = store.troubles.busy.value !== '';
  const act = (how: 'link' | 'copy') => () => void accept.takeResults(how);
  return (
    <section class={look.card} aria-labelledby="accept-results-title">
      <h2 id="accept-results-title">Results of the sample</h2>
      {trouble && <TroubleBox trouble={trouble} facts={store.facts} />}
      {lot && (
        <>
          <p class={look.sentence}>{lot.sentence}</p>
          {lot.failures.length > 0 && (
            <ul class={look.judged} aria-label="units that do not conform">
              {lot.failures.map(({ serial, why }) => (
                <li key={serial}>
                  <strong>{serial}</strong>: {why}
                </li>
              ))}
            </ul>
          )}
          {lot.more !== '' && <p class={look.quiet}>{lot.more}</p>}
          <p class={look.quiet}>
            Run sheets and lines of batches are found by serial number; a full run goes before a batch. Linked
            figures follow their sheet, also when it is renamed; copied ones stay as they are. Figures may be
            typed on the sheet as well.
          </p>
          <Action isMain={next?.id === 'link'} isOff={isBusy} onAct={act('link')}>
            Link the results
          </Action>
          <Action isOff={isBusy} onAct={act('copy')}>
            Copy them as numbers
          </Action>
          <div role="status">
            {taken.value.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </div>
        </>
      )}
    </section>
  );
}
