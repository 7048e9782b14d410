import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import own from './batch.module.css';
import type { BatchProps } from './NewBatch';
import type { BatchStep } from './state';
import type { BatchView, UnitLine } from './view';

/** More are filtered on the sheet. */
const SHOWN = 25;

/** How far the batch is, what does not pass and what needs another look, each with a way to its row. */
export function BatchState({ store, step }: BatchProps) {
  const view = step.view.value;
  const trouble = step.trouble.value;
  return (
    <>
      {trouble && <TroubleBox trouble={trouble} facts={store.facts} />}
      {view && <Counts view={view} step={step} />}
    </>
  );
}

function Counts({ view, step }: { readonly view: BatchView; readonly step: BatchStep }) {
  const { units, complete, failing, conditional, odd, waiting, next, differing, isPlainOnly } = view;
  const passing = units.filter(({ decision }) => decision === 'pass').length;
  return (
    <>
      <h3>
        {complete} of {units.length} units complete
      </h3>
      <progress max={Math.max(1, units.length)} value={complete} aria-label="units complete" />
      <p role="status">
        {passing} pass, {conditional} conditional pass, {failing.length} fail or conditional fail.
      </p>
      {waiting && (
        <div class={look.notice}>
          <p>
            The ambient light is not read:{' '}
            {waiting.count === 1 ? 'one unit waits' : `${waiting.count} units wait`} for it.
          </p>
          <Action onAct={() => void step.goTo(waiting.cell)}>Go to the ambient reading</Action>
        </div>
      )}
      <UnitList title="Not passing" units={failing} step={step} />
      <UnitList title="Rows that need another look" units={odd} step={step} />
      {next && (
        <div>
          <Action onAct={() => void step.goTo(next.cell)}>Go to {next.serial}, next to be read</Action>
        </div>
      )}
      {differing > 0 && (
        <p class={look.error}>
          In {differing === 1 ? 'one row' : `${differing} rows`} the function and the plain formulas differ:
          look at the sheet before you use the figures.
        </p>
      )}
      {isPlainOnly && (
        <div class={look.notice}>
          <p>
            In some lines the function shows no results; the plain formulas do. The workbook may have been
            opened before the add-in was there.
          </p>
          <Action onAct={() => void step.refresh()}>Enter the function again</Action>
        </div>
      )}
    </>
  );
}

interface UnitListProps {
  readonly title: string;
  readonly units: readonly UnitLine[];
  readonly step: BatchStep;
}

function UnitList({ title, units, step }: UnitListProps) {
  if (units.length === 0) return null;
  return (
    <div class={own.list}>
      <h3>
        {title}: {units.length}
      </h3>
      <ul>
        {units.slice(0, SHOWN).map((unit) => (
          <li key={unit.line}>
            <button
              type="button"
              class={own.row}
              onClick={() => {
                step.lookAt(unit.line);
                void step.goTo(unit.cell);
              }}
            >
              <strong>{unit.serial || 'no serial number'}</strong>
              {unit.place && `, ${unit.place}`}: {wordsOf(unit)}
            </button>
          </li>
        ))}
      </ul>
      {units.length > SHOWN && (
        <p class={look.quiet}>
          And {units.length - SHOWN} more: filter the columns State and Decision on the sheet.
        </p>
      )}
    </div>
  );
}

/** "fail, white (1495 ± 120) lm", or what the row says instead. */
export function wordsOf({ state, decision, results }: UnitLine): string {
  const judged = decision === 'to be measured' || decision === 'nothing judged' ? '' : decision;
  const said = state === 'complete' ? '' : state;
  return [judged, results, said].filter(Boolean).join(', ') || 'complete';
}
