import look from '../../components/look.module.css';
import type { Store } from '../../store';
import type { RunView } from '../view';
import { Contributors } from './Contributors';
import { DecisionCard } from './DecisionCard';
import { SecondOpinion } from './SecondOpinion';
import own from './Sure.module.css';

/** The decisions on what was asked for. */
export function Decisions({ run }: { readonly run: RunView }) {
  return (
    <section class={look.card} aria-labelledby="decisions-title">
      <h2 id="decisions-title">Decision</h2>
      {run.sure.decisions.map((decision) => (
        <DecisionCard key={decision.id} decision={decision} />
      ))}
    </section>
  );
}

/** What makes the results uncertain, what was assumed, and a second opinion. */
export function Doubt({ store, run }: { readonly store: Store; readonly run: RunView }) {
  const { contributors, assumptions, figures } = run.sure;
  return (
    <div class={`${look.card} ${own.sure}`}>
      {contributors.length > 0 && <Contributors store={store} contributors={contributors} />}
      {assumptions.length > 0 && (
        <details class={own.assumed}>
          <summary tabIndex={0}>
            {assumptions.length === 1 ? 'One value was assumed' : `${assumptions.length} values were assumed`}
            <span class={look.quiet}> cautious ones, because nothing was entered</span>
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
