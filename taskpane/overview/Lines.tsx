import { outcomeOf } from './outcome';
import type { OverviewStep } from './state';
import type { OverviewLine } from './view';

/** A sign beside the state, for those who see no colours. */
const SIGNS = { good: '\u2713', open: '\u25d0', none: '\u25cb', bad: '\u2717' } as const;

/** The sheets, in the order of the tabs. */
export function Lines({ step }: { readonly step: OverviewStep }) {
  const lines = step.lines.value;
  if (!lines) return <p class="quiet">Reading the workbook …</p>;
  if (lines.length === 0)
    return (
      <p class="quiet">
        No sheet of ours yet. Begin with any step: what light a room needs, or a first measurement. A template
        builds a whole set at once.
      </p>
    );
  return (
    <>
      <p class="quiet">{summary(lines)}</p>
      <ul class="overview">
        {lines.map((line) => (
          <li key={line.sheet}>
            <Line line={line} onGo={() => void step.goTo(line.sheet)} />
          </li>
        ))}
      </ul>
    </>
  );
}

function Line({ line, onGo }: { readonly line: OverviewLine; readonly onGo: () => void }) {
  const { sheet, kind, about, state, tone, outcome, figures } = line;
  // What came out weighs more than how far it is: a lot that is rejected is not "complete" and green.
  const sign = outcome === 'bad' ? 'bad' : tone;
  return (
    <>
      <p class="first">
        <button type="button" class="to-sheet" onClick={onGo}>
          <span class="spoken">Go to sheet</span> {sheet}
        </button>
        <span class="kind">{kind}</span>
      </p>
      {about && <p class="quiet">{about}</p>}
      <p class={`state ${sign}`}>
        <span aria-hidden="true">{SIGNS[sign]}</span> {sign === 'bad' ? `with a failure, ${state}` : state}
      </p>
      {figures.map(({ label, text, decision }) => (
        <p key={label} class="result">
          <span class="quiet">{label}</span>
          <span class={`value ${outcomeOf([decision]) ?? ''}`}>
            {text}
            {text && decision && ', '}
            {decision}
          </span>
        </p>
      ))}
    </>
  );
}

function summary(lines: readonly OverviewLine[]): string {
  const count = (is: (line: OverviewLine) => boolean) => lines.filter(is).length;
  const parts = [
    [count(({ outcome }) => outcome === 'bad'), 'with a failure'],
    [count(({ tone, outcome }) => tone === 'good' && outcome !== 'bad'), 'complete or sealed'],
    [count(({ tone, outcome }) => tone === 'open' && outcome !== 'bad'), 'in progress'],
    [count(({ tone }) => tone === 'none'), 'empty'],
  ] as const;
  const words = parts.filter(([n]) => n > 0).map(([n, what]) => `${n} ${what}`);
  return `${lines.length} ${lines.length === 1 ? 'sheet' : 'sheets'}: ${words.join(', ')}.`;
}
