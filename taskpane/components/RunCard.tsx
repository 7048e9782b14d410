import type { CellName } from '../../src/sheets/names/all';
import type { RunView } from '../run/view';
import type { Store } from '../store';
import { Agreement } from './Agreement';
import { later } from './Later';
import { Progress } from './Progress';
import { Results } from './Results';
import { TroubleBox } from './TroubleBox';

/** Comes with the first result: the statistics' words and pictures do not hold up the first paint. */
const Sure = later(async () => (await import('./Sure')).Sure);

/** The run in front, or the one picked: it follows every change on the sheet. */
export function RunCard({ store }: { readonly store: Store }) {
  const { workbook, facts } = store;
  const run = store.run.value;
  const trouble = workbook.trouble.value;
  if (workbook.runs.value.length === 0 && !trouble) {
    const words = workbook.survey.value
      ? 'No run sheet in this workbook yet. Build one above.'
      : 'Looking at the workbook \u2026';
    return (
      <section class="card" aria-labelledby="run-title">
        <h2 id="run-title">Results</h2>
        <p class="quiet">{words}</p>
      </section>
    );
  }
  return (
    <section class="card" aria-labelledby="run-title">
      <h2 id="run-title">Results</h2>
      {run?.about && <p class="about">{run.about}</p>}
      {workbook.runs.value.length > 0 && <RunPicker store={store} />}
      {trouble && <TroubleBox trouble={trouble} facts={facts} />}
      <p class="waiting" role="status">
        {workbook.isWaiting.value ? 'A cell is being edited; the figures follow when you are done.' : ''}
      </p>
      {run && (
        <>
          <p class="spoken" role="status">
            {spoken(run)}
          </p>
          <Results run={run} />
          {Object.keys(run.sure.figures).length > 0 && <Sure store={store} run={run} />}
          <Progress store={store} run={run} />
          {run.remarks.length > 0 && (
            <div class="notice">
              <h3>Remarks</h3>
              {run.remarks.map((remark) => (
                <Remark key={remark} text={remark} />
              ))}
            </div>
          )}
          <Agreement store={store} run={run} />
        </>
      )}
    </section>
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

function RunPicker({ store }: { readonly store: Store }) {
  const { workbook } = store;
  const runs = workbook.runs.value;
  const shown = workbook.shown.value;
  if (runs.length === 1) return <p class="sheet">on sheet “{shown}”</p>;
  return (
    <div class="field">
      <label for="run-picker">Run sheet</label>
      <select id="run-picker" value={shown} onChange={(event) => workbook.pick(event.currentTarget.value)}>
        {runs.map(({ sheet }) => (
          <option key={sheet} value={sheet}>
            {sheet}
          </option>
        ))}
      </select>
    </div>
  );
}
