import { useId } from 'preact/hooks';
import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import look from '../components/look.module.css';
import { count } from '../parse/block';
import type { Store } from '../store';
import { goTo } from './goto';
import own from './LogCard.module.css';
import { logOf } from './logged';

/** What the tool did in this workbook, and by whom. */
export function LogCard({ store }: { readonly store: Store }) {
  const { log, author } = store;
  const view = logOf(store);
  const box = useId();
  const waiting = log.waiting.value;
  const { sheet, lines } = view.shown.value;
  const isOff = store.troubles.busy.value !== '';
  return (
    <section class={look.card} aria-labelledby="log-title">
      <h2 id="log-title">Log</h2>
      <p class={look.quiet}>
        What is built, captured, imported, checked, repaired, sealed and exported is written to a sheet “Log”.
        Lines are added below the last one and never changed.
      </p>
      <Entry
        id="log-who"
        label="Who works here"
        value={author.who.value}
        hint="For the log, seals and reports. Kept in this browser."
        onType={author.type}
      />
      <label class={look.tick} for={box}>
        <input
          id={box}
          type="checkbox"
          checked={log.isKept.value}
          onChange={(event) => log.keep(event.currentTarget.checked)}
        />
        Keep a log in the workbook
      </label>
      {waiting.length > 0 && log.trouble.value !== '' && (
        <>
          <p class={look.error}>
            {count(waiting.length, 'line')} not yet in the log. {log.trouble.value}
          </p>
          <Action isOff={isOff} onAct={() => void log.flush()}>
            Try again
          </Action>
        </>
      )}
      <div class={look.answers}>
        <Action isOff={isOff} onAct={() => void view.look()}>
          Show the last lines
        </Action>
        {sheet !== undefined && (
          <Action isOff={isOff} onAct={() => void goTo(store, sheet, 'LogHead')}>
            Go to the log
          </Action>
        )}
      </div>
      <p role="status">{view.said.value}</p>
      {lines.length > 0 && (
        <ol class={own.lines} aria-label="Last lines of the log">
          {lines.map(([when, who, what, about, detail], i) => (
            <li key={i}>
              <p>
                <strong>{what}</strong>
                {about && <> “{about}”</>}
                <span class={look.quiet}>
                  {' '}
                  {when}, {who}
                </span>
              </p>
              {detail && <p class={look.quiet}>{detail}</p>}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}
