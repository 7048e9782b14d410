import type { CellName } from '../../../src/sheets/names/all';
import { later } from '../../components/Later';
import look from '../../components/look.module.css';
import { TroubleBox } from '../../components/TroubleBox';
import type { BodyProps } from '../../sheet/body';
import type { RunView } from '../view';
import { Agreement } from './Agreement';
import { Progress } from './Progress';
import { Results } from './Results';
import own from './RunCard.module.css';

/** These come with the first result: the statistics' words and pictures are not wanted before. */
const Decisions = later(async () => (await import('./Sure')).Decisions);
const Fields = later(async () => (await import('./FieldsAsRead')).FieldsAsRead);
const Doubt = later(async () => (await import('./Sure')).Doubt);

/** What came out of a run: remarks first, then results with their decisions in a word. */
export function RunResults({ store }: BodyProps) {
  const { workbook, facts } = store;
  const run = store.run.value;
  const trouble = workbook.trouble.value;
  return (
    <section class={look.card} aria-labelledby="run-title">
      <h2 id="run-title">Results</h2>
      {trouble && <TroubleBox trouble={trouble} facts={facts} />}
      <p class={`${look.quiet} ${own.waiting}`} role="status">
        {workbook.isWaiting.value ? 'A cell is being edited; the figures follow when you are done.' : ''}
      </p>
      {run && (
        <>
          <p class={look.spoken} role="status">
            {spoken(run)}
          </p>
          {run.remarks.length > 0 && (
            <div class={look.notice}>
              <h3>Remarks</h3>
              {run.remarks.map((remark) => (
                <Remark key={remark} text={remark} />
              ))}
            </div>
          )}
          <Results run={run} />
          <Agreement store={store} run={run} />
        </>
      )}
    </section>
  );
}

/** What stands behind the results: how far the readings are, the decisions with their pictures, the doubt. */
export function RunCard({ store }: BodyProps) {
  const run = store.run.value;
  if (!run) return null;
  const isSure = Object.keys(run.sure.figures).length > 0;
  return (
    <>
      {isSure && run.sure.decisions.length > 0 && <Decisions run={run} />}
      {isSure && <Doubt store={store} run={run} />}
      <Progress store={store} run={run} />
      <Fields store={store} run={run} />
    </>
  );
}

/** More than a few lines fold behind their first sentence. */
const REMARK_MAX = 200;

function Remark({ text }: { readonly text: string }) {
  if (text.length <= REMARK_MAX) return <p>{text}</p>;
  // A full stop inside a figure ("2.5") ends no sentence.
  const end = text.search(/[.?] /) + 1;
  return (
    <details>
      <summary tabIndex={0}>{text.slice(0, end)}</summary>
      <p>{text.slice(end + 1)}</p>
    </details>
  );
}

/** One sentence for a screen reader instead of every figure that changes. */
function spoken(run: RunView): string {
  const figure = (name: CellName, words: string) => {
    const result = run.results.find((one) => one.name === name);
    const sure = run.sure.figures[name];
    if (sure) return `${words} ${sure.text}. `;
    return result?.text ? `${words} ${result.text} ${result.unit}. ` : '';
  };
  const figures = figure('WhiteLightOutput', 'White') + figure('ColourLightOutput', 'Colour');
  return `${figures}${run.done} of ${run.of} readings.`;
}
