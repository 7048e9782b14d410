import { reportText } from '../../src/metrology/report';
import { whole } from '../../src/procurement/wording/format';
import type { Measurement } from '../../src/sheets/ageing/setup';
import look from '../components/look.module.css';
import { Picture } from '../picture/Picture';
import { AgeingPicture } from './AgeingPicture';
import type { AgeingAnswer } from './forecast';
import { drawing } from './picture';

export interface AnswerProps {
  readonly points: readonly Measurement[];
  /** Or in words what is missing for it. */
  readonly found: AgeingAnswer | string;
}

/** What the measurements say, with the picture; or what is missing. */
export function Answer({ points, found }: AnswerProps) {
  return (
    <section class={look.card} aria-labelledby="ageing-answer">
      <h2 id="ageing-answer">What the measurements say</h2>
      {typeof found === 'string' ? (
        <p class={look.quiet} role="status">
          {found}
        </p>
      ) : (
        <Found found={found} points={points} />
      )}
    </section>
  );
}

function Found({ found, points }: AnswerProps & { readonly found: AgeingAnswer }) {
  const { initial, fit, next } = found;
  return (
    <>
      <Picture
        title="Light over the hours"
        table={{
          head: ['hours', 'light output'],
          rows: [
            ...points.map(({ hours, output, expanded }) => [
              `${whole(hours)} h`,
              expanded === undefined ? `${whole(output)} lm` : reportText(output, expanded, 'lm'),
            ]),
            ...found.to.map(({ label, sentence }) => [`to ${label}`, sentence]),
          ],
        }}
      >
        <AgeingPicture drawing={drawing(points, found)} />
      </Picture>
      <p class={look.sentence}>{found.rate}</p>
      <dl>
        {found.to.map(({ label, sentence }) => (
          <div key={label}>
            <dt>To {label}</dt>
            <dd>{sentence}</dd>
          </div>
        ))}
        <div>
          <dt>Initial light</dt>
          <dd>
            {whole(initial.output)} lm,{' '}
            {initial.kind === 'stated' ? 'as stated' : `first measured, at ${whole(initial.hours)} h`}; by the
            fit {whole(fit.start)} lm at 0 h
          </dd>
        </div>
        <div>
          <dt>Measure again</dt>
          <dd>
            {next.isDue ? 'now.' : `at ${whole(next.hours)} h${next.date ? `, about ${next.date}` : ''}.`}{' '}
            {next.why}
          </dd>
        </div>
      </dl>
      <p class={look.quiet}>
        What lies beyond the last measurement is projected, not measured, and nothing is said beyond 6 × the
        observed hours. The curve was made for LEDs; for lamps and lasers it is an extrapolation by analogy.
      </p>
    </>
  );
}
