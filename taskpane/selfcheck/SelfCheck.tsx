import type { ProbeResult } from '../../src/excel/selfcheck/probe';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import look from '../components/look.module.css';
import { Arrival } from '../saving/Arrival';
import type { Store } from '../store';
import own from './SelfCheck.module.css';
import { selfCheckOf } from './state';

/** Asks the spreadsheet program what only it can tell, and says what each answer means for the work. */
export function SelfCheck({ store }: { readonly store: Store }) {
  const check = selfCheckOf(store);
  const { results, progress, said, isWhole } = check;
  const isOff = store.troubles.busy.value !== '';
  const under = progress.value;
  return (
    <section class={look.card} aria-labelledby="self-check-title">
      <h2 id="self-check-title">Check this spreadsheet program</h2>
      <p class={look.quiet}>
        Programs differ, and versions of one program do. Some thirty questions are put to this one on a
        scratch sheet, which is taken away again; your sheets are not touched. A window opens for a moment:
        allow it. It takes a minute or two.
      </p>
      <label class={look.tick}>
        <input
          type="checkbox"
          checked={isWhole.value}
          disabled={isOff}
          onChange={(event) => check.setWhole(event.currentTarget.checked)}
        />
        also with batches of up to 5000 units: some minutes more
      </label>
      <div class={look.answers}>
        <Action isMain isOff={isOff} onAct={() => void check.run()}>
          Check this program
        </Action>
      </div>
      {under && (
        <div class={look.underWay}>
          <progress max={under.of} value={under.done} aria-label="how far the check is" />
          <p>{under.words}</p>
          <Action onAct={check.stop}>Stop after this one</Action>
        </div>
      )}
      <p role="status">{said.value}</p>
      {results.value.length > 0 && (
        <>
          <ul class={own.probes} aria-label="Answers of the program">
            {/* What needs attention first. */}
            {[...results.value].sort(byWeight).map((result) => (
              <Answer key={result.probe.id} result={result} />
            ))}
          </ul>
          {!under && (
            <>
              <CopyText key={said.value} text={check.text}>
                Copy everything as text
              </CopyText>
              <Action onAct={check.trySaving}>Try saving it as a file</Action>
              <Arrival saving={check.saving} />
            </>
          )}
        </>
      )}
    </section>
  );
}

const WEIGHT: Readonly<Record<ProbeResult['state'], number>> = {
  failed: 0,
  otherwise: 1,
  'not offered': 2,
  'as expected': 3,
};
function byWeight(a: ProbeResult, b: ProbeResult): number {
  return WEIGHT[a.state] - WEIGHT[b.state];
}

const MARKS: Readonly<Record<ProbeResult['state'], string>> = {
  'as expected': '✓',
  otherwise: '≠',
  failed: '✗',
  'not offered': '–',
};

function Answer({ result: { probe, state, came } }: { readonly result: ProbeResult }) {
  const isFine = state === 'as expected';
  return (
    <li class={isFine || state === 'not offered' ? undefined : own.odd}>
      <p>
        <span aria-hidden="true">{MARKS[state]} </span>
        <strong>{probe.title}</strong>: {state}
      </p>
      {!isFine && <p>{probe.means}</p>}
      <dl>
        <dt>expected</dt>
        <dd>{probe.expects}</dd>
        <dt>came</dt>
        <dd>{came}</dd>
      </dl>
    </li>
  );
}
