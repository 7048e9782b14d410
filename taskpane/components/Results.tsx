import type { ResultView } from '../run/results';
import type { RunView } from '../run/view';

/** White and colour light output in big type, their ratio in a sentence, and the other results below. */
export function Results({ run }: { readonly run: RunView }) {
  const find = (name: string) => run.results.find((result) => result.name === name);
  const big = [find('WhiteLightOutput'), find('ColourLightOutput')].filter((result) => result !== undefined);
  const others = run.results.filter((result) => !big.includes(result) && result.name !== 'ColourToWhite');
  const hasRatio = find('ColourToWhite') !== undefined;
  return (
    <>
      <div class="figures">
        {big.map((result) => (
          <Figure key={result.name} result={result} />
        ))}
      </div>
      {hasRatio && (
        <div class="ratio">
          <p>
            <span class="label">Colour to white</span> <strong>{run.ratio?.text ?? '\u2013'}</strong>
          </p>
          <p class="sentence">
            {run.ratio?.sentence ?? 'Comes once white and all three colours are complete.'}
          </p>
        </div>
      )}
      <details class="others">
        <summary>All other results</summary>
        <dl>
          {others.map((result) => (
            <div key={result.name}>
              <dt>{result.label}</dt>
              <dd>
                <Value result={result} />
              </dd>
            </div>
          ))}
        </dl>
      </details>
    </>
  );
}

function Figure({ result }: { readonly result: ResultView }) {
  return (
    <div class="figure">
      <p class="label">{result.label}</p>
      <p class="big">
        {result.text || '\u2013'} <span class="unit">{result.unit}</span>
      </p>
      <p class="why">{result.message ?? ''}</p>
    </div>
  );
}

function Value({ result }: { readonly result: ResultView }) {
  if (!result.text && result.message) return <span class="error">{result.message}</span>;
  return <span>{result.text ? `${result.text} ${result.unit}`.trim() : '–'}</span>;
}
