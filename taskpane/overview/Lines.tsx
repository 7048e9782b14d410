import look from '../components/look.module.css';
import { stateWords } from '../sheet/statewords';
import own from './Lines.module.css';
import { outcomeOf } from './outcome';
import type { OverviewStep } from './state';
import type { OverviewLine } from './view';

/** The sheets, in the order of the tabs. */
export function Lines({ step }: { readonly step: OverviewStep }) {
  const lines = step.lines.value;
  if (!lines) return <p class={look.quiet}>Reading the workbook …</p>;
  if (lines.length === 0)
    return (
      <p class={look.quiet}>
        No sheet of ours yet. Begin with any step: what light a room needs, or a first measurement. A template
        builds a whole set at once.
      </p>
    );
  return (
    <>
      <p class={look.quiet}>{summary(lines)}</p>
      <ul class={own.overview}>
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
  const { sheet, kind, about, figures } = line;
  const stand = stateWords(line);
  return (
    <>
      <p class={own.first}>
        <button type="button" class={own.name} onClick={onGo}>
          <span class={look.spoken}>Go to sheet</span> {sheet}
        </button>
        <span class={look.quiet}>{kind}</span>
      </p>
      {about && <p class={look.quiet}>{about}</p>}
      <p class={look.state} data-tone={stand.tone}>
        <span aria-hidden="true">{stand.sign}</span> {stand.words}
      </p>
      {figures.map(({ label, text, decision }) => (
        <p key={label} class={own.result}>
          <span class={look.quiet}>{label}</span>
          <span class={own.value} data-outcome={outcomeOf([decision])}>
            {text}
            {text && decision && ', '}
            {decision}
          </span>
        </p>
      ))}
    </>
  );
}

const isWell = ({ isBroken, outcome }: OverviewLine) => !isBroken && outcome !== 'bad';

function summary(lines: readonly OverviewLine[]): string {
  const count = (is: (line: OverviewLine) => boolean) => lines.filter(is).length;
  const parts = [
    [count(({ isBroken }) => isBroken), 'with a seal that does not hold'],
    [count((line) => !line.isBroken && line.outcome === 'bad'), 'with a failure'],
    [count((line) => isWell(line) && line.tone === 'good'), 'complete or sealed'],
    [count((line) => isWell(line) && line.tone === 'open'), 'in progress'],
    [count(({ isBroken, tone }) => !isBroken && tone === 'none'), 'empty'],
  ] as const;
  const words = parts.filter(([n]) => n > 0).map(([n, what]) => `${n} ${what}`);
  return `${lines.length} ${lines.length === 1 ? 'sheet' : 'sheets'}: ${words.join(', ')}.`;
}
