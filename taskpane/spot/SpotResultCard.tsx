import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import type { BodyProps } from '../sheet/body';
import { spotResultsOf } from './result';

/** Which unit of a spot check is brighter: the answer it is made for. */
export function SpotResultCard({ store }: BodyProps) {
  const { result, trouble } = spotResultsOf(store);
  const found = result.value;
  if (!found) return null;
  const { units, answers, reference } = found;
  return (
    <section class={look.card} aria-labelledby="spot-result-title">
      <h2 id="spot-result-title">Which is brighter</h2>
      {trouble.value && <TroubleBox trouble={trouble.value} facts={store.facts} />}
      {answers.length === 0 ? (
        <p class={look.quiet}>
          No unit has a reading yet. Take them in the window, or type them on the sheet.
        </p>
      ) : (
        <>
          <dl>
            {answers.map(({ label, text }) => (
              <div key={label}>
                <dt>{label}</dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
          <p class={look.quiet}>
            {answers.length} of {units} units, the brightest first; {reference} counts as 100 %. For lumens,
            measure a run of the unit that is chosen.
          </p>
        </>
      )}
    </section>
  );
}
