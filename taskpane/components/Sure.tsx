import type { RunView } from '../run/view';
import type { Store } from '../store';
import { Contributors } from './Contributors';
import { DecisionCard } from './DecisionCard';
import { SecondOpinion } from './SecondOpinion';

/** How sure the results are: the decision, what makes them uncertain, what was assumed, and a second opinion. */
export function Sure({ store, run }: { readonly store: Store; readonly run: RunView }) {
  const { decisions, contributors, assumptions, figures } = run.sure;
  return (
    <div class="sure">
      {decisions.map((decision) => (
        <DecisionCard key={decision.id} decision={decision} />
      ))}
      {contributors.length > 0 && <Contributors contributors={contributors} />}
      {assumptions.length > 0 && (
        <details class="assumed">
          <summary tabIndex={0}>
            {assumptions.length === 1 ? 'One value was assumed' : `${assumptions.length} values were assumed`}
            <span class="gist"> cautious ones, because nothing was entered</span>
          </summary>
          <dl>
            {assumptions.map(({ label, words }) => (
              <div key={label}>
                <dt>{label}</dt>
                <dd>{words}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
      <SecondOpinion
        store={store}
        figures={Object.values(figures).filter((figure) => figure !== undefined)}
      />
    </div>
  );
}
