import { operatingCurve } from '../../src/procurement/lot/curve';
import { serialsOf } from '../../src/procurement/lot/serials';
import { chance, units } from '../../src/procurement/wording/format';
import type { DrawnLot } from '../../src/sheets/acceptance/setup';
import { CopyText } from '../components/CopyText';
import look from '../components/look.module.css';
import { objectionOf } from '../form/field';
import { Curve } from '../picture/Curve';
import { Picture } from '../picture/Picture';
import type { Accept } from './state';

/** The plan in words, what it protects, and the serials drawn. */
export function Drawn({ accept }: { readonly accept: Accept }) {
  const drawn = accept.drawn.value;
  const count = serialsOf(accept.form.texts.value.serials).length;
  return (
    <section class={look.card} aria-labelledby="accept-plan">
      <h2 id="accept-plan">Plan and draw</h2>
      {drawn?.ok ? (
        <Plan drawn={drawn.value} />
      ) : (
        <p class={look.quiet} role="status">
          {objectionOf(drawn) ||
            `${units(count)} listed. The plan stands here once list, seed and limits are there.`}
        </p>
      )}
    </section>
  );
}

function Plan({ drawn }: { readonly drawn: DrawnLot }) {
  const { plan, draw, words } = drawn;
  const most = plan.reject - 1;
  return (
    <>
      <p class={look.sentence}>
        {units(plan.sampleSize)} of {plan.lotSize} to measure; accepted with at most {most} that{' '}
        {most === 1 ? 'does' : 'do'} not conform, rejected with {plan.reject}
        {most > plan.accept && `; with more than ${plan.accept} the next lot is inspected normally`}.
      </p>
      <details>
        <summary tabIndex={0}>Drawn with the seed “{draw.seed}”</summary>
        <ol>
          {draw.drawn.map(({ serial }) => (
            <li key={serial}>{serial}</li>
          ))}
        </ol>
        <CopyText text={() => draw.drawn.map(({ serial }) => serial).join('\n')}>Copy the serials</CopyText>
        <details>
          <summary tabIndex={0}>The ticket of each, to repeat the draw</summary>
          <ol>
            {draw.drawn.map(({ serial, ticket }) => (
              <li key={serial}>
                {serial} <span class={look.quiet}>ticket {ticket.slice(0, 12)}…</span>
              </li>
            ))}
          </ol>
          <p class={look.quiet}>{draw.method}</p>
        </details>
      </details>
      <details>
        <summary tabIndex={0}>What this plan protects, and what not</summary>
        <ul>
          {words.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
      <Protection drawn={drawn} />
    </>
  );
}

/** Points of the curve worth a line in a narrow pane; the sheet has more. */
const SHOWN = 12;

/** How probably the lot is accepted, over how many of its units fail. */
function Protection({ drawn: { plan } }: { readonly drawn: DrawnLot }) {
  const curve = operatingCurve({ ...plan, accept: plan.reject - 1 }, SHOWN);
  if (!curve.ok) return null;
  const points = curve.value;
  const half = points.find(({ probability }) => probability <= 0.5);
  const words = `Accepted for certain with none that fail${half ? `, in half of the cases with about ${half.nonconforming} of ${plan.lotSize}` : ''}.`;
  return (
    <details>
      <summary tabIndex={0}>How probably such a lot is accepted</summary>
      <Picture
        title="How probably the lot is accepted"
        table={{
          head: ['not conforming in the lot', 'accepted'],
          rows: points.map(({ nonconforming, probability }) => [
            `${nonconforming} of ${plan.lotSize}`,
            chance(probability),
          ]),
        }}
      >
        <Curve points={points} lotSize={plan.lotSize} words={words} />
      </Picture>
    </details>
  );
}
