import { useSignal } from '@preact/signals';
import { Choice } from '../../components/Choice';
import look from '../../components/look.module.css';
import { Bars } from '../../picture/Bars';
import { Picture } from '../../picture/Picture';
import type { Store } from '../../store';
import type { Contributors as View } from '../contributors';
import { CauseForm } from './CauseForm';
import own from './Contributors.module.css';

/** Width of a whole bar in its own units. */
const WHOLE = 100;

const percentOf = (share: number) => `${share < 0.005 ? 'under 1' : Math.round(100 * share)} %`;

export interface ContributorsProps {
  readonly store: Store;
  readonly contributors: readonly View[];
}

/** The largest contributors to the doubt as bars with words, and what would help most. */
export function Contributors({ store, contributors }: ContributorsProps) {
  const picked = useSignal('White');
  const shown = contributors.find(({ id }) => id === picked.value) ?? contributors[0]!;
  return (
    <section aria-labelledby="contributors-title">
      <h3 id="contributors-title">What makes it uncertain</h3>
      {contributors.length > 1 && (
        <Choice
          id="contributors-of"
          label="Result"
          value={shown.id}
          choices={contributors.map(({ id, label }) => [id, label])}
          onPick={(id) => {
            picked.value = id;
          }}
        />
      )}
      <Picture
        title={`Parts of the doubt of ${shown.label}`}
        table={{
          head: ['cause', 'part of the variance'],
          rows: shown.causes.map(({ words, share, isAssumed }) => [
            isAssumed ? `${words} (assumed)` : words,
            percentOf(share),
          ]),
        }}
        drawing={
          <Bars
            most={1}
            lines={shown.causes.map(({ words, share }) => ({
              label: words,
              text: percentOf(share),
              value: share,
            }))}
          />
        }
      >
        <ul class={own.bars}>
          {shown.causes.map(({ cause, words, share, isAssumed }) => (
            <li key={cause}>
              <span>
                {words}
                {isAssumed && <span class={look.quiet}> assumed</span>}
              </span>
              <span class={own.percent}>{percentOf(share)}</span>
              <svg viewBox={`0 0 ${WHOLE} 6`} preserveAspectRatio="none" aria-hidden="true">
                <rect class={own.whole} x="0" y="0" width={WHOLE} height="6" />
                <rect class={own.part} x="0" y="0" width={WHOLE * share} height="6" />
              </svg>
            </li>
          ))}
        </ul>
      </Picture>
      <p class={look.sentence}>{shown.advice}</p>
      {shown.causes[0] && <CauseForm key={shown.causes[0].cause} store={store} cause={shown.causes[0]} />}
      <p class={look.quiet}>
        Parts of the variance: two causes of the same size make the doubt 1.4 times as large, not twice.
      </p>
    </section>
  );
}
