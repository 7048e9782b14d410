import figures from '../../components/figures.module.css';
import look from '../../components/look.module.css';
import { outcomeOf } from '../../overview/outcome';
import type { ResultView } from '../results';
import type { SureFigure } from '../sure';
import type { RunView } from '../view';
import own from './Results.module.css';

/** White and colour light output in big type, their ratio in a sentence, and the other results below. */
export function Results({ run }: { readonly run: RunView }) {
  const find = (name: string) => run.results.find((result) => result.name === name);
  const big = [find('WhiteLightOutput'), find('ColourLightOutput')].filter((result) => result !== undefined);
  const others = run.results.filter((result) => !big.includes(result) && result.name !== 'ColourToWhite');
  const ratio = run.sure.figures.ColourToWhite;
  const hasRatio = find('ColourToWhite') !== undefined;
  return (
    <>
      <div class={figures.figures}>
        {big.map((result) => (
          <Figure
            key={result.name}
            result={result}
            sure={run.sure.figures[result.name]}
            waitsFor={run.waitsFor}
            decision={run.sure.decisions.find(({ id }) => result.name.startsWith(id))?.verdict}
          />
        ))}
      </div>
      {hasRatio && (
        <div class={own.ratio}>
          <p class={look.quiet}>Colour to white</p>
          <p>
            <strong>{ratio?.text ?? run.ratio?.text ?? '\u2013'}</strong>
          </p>
          {ratio && <p class={figures.basis}>{ratio.basis}</p>}
          <p class={look.sentence}>
            {run.ratio?.sentence ?? (run.waitsFor || 'Comes once white and all three colours are complete.')}
          </p>
        </div>
      )}
      <details class={figures.others}>
        <summary tabIndex={0}>All other results</summary>
        <dl>
          {others.map((result) => (
            <div key={result.name}>
              <dt>{result.label}</dt>
              <dd>
                <Value result={result} sure={run.sure.figures[result.name]} />
              </dd>
              <Doubt words={run.sure.figures[result.name]?.doubt ?? ''} />
            </div>
          ))}
        </dl>
      </details>
    </>
  );
}

interface FigureProps {
  readonly result: ResultView;
  readonly sure: SureFigure | undefined;
  readonly waitsFor: string;
  /** "pass", "conditional fail" …, where something was asked for. */
  readonly decision: string | undefined;
}

/** With its doubt as soon as that is known, and what was decided: `(2230 ± 120) lm, k = 2.00, 95.45 %: pass`. */
function Figure({ result, sure, waitsFor, decision }: FigureProps) {
  return (
    <div class={figures.figure}>
      <p class={look.quiet}>{result.label}</p>
      {sure ? (
        <>
          <p class={figures.big}>{sure.text}</p>
          <p class={figures.basis}>
            {sure.basis}
            {decision && ' '}
            {decision && (
              <strong class={own.verdict} data-outcome={outcomeOf([decision])}>
                {decision}
              </strong>
            )}
          </p>
        </>
      ) : (
        <p class={figures.big}>
          {result.text || '\u2013'}
          {'\u00a0'}
          <span class={figures.unit}>{result.unit}</span>
        </p>
      )}
      <p class={own.why}>{result.message ?? (result.text || sure ? '' : waitsFor)}</p>
    </div>
  );
}

/** Why a U is rough, folded behind the fact: "U is rough: 2 other points …". */
function Doubt({ words }: { readonly words: string }) {
  const end = words.indexOf(': ');
  if (end < 0) return null;
  return (
    <dd class={own.doubt}>
      <details>
        <summary tabIndex={0}>{words.slice(0, end)}</summary>
        {words[end + 2]!.toUpperCase()}
        {words.slice(end + 3)}
      </details>
    </dd>
  );
}

function Value({ result, sure }: { readonly result: ResultView; readonly sure: SureFigure | undefined }) {
  if (sure) {
    return (
      <>
        {sure.text}
        <br />
        <span class={figures.basis}>{sure.basis}</span>
      </>
    );
  }
  if (!result.text && result.message) return <span class={look.error}>{result.message}</span>;
  return <span>{result.text ? `${result.text} ${result.unit}`.trim() : '–'}</span>;
}
