import { reportText } from '../../../src/metrology/report';
import look from '../../components/look.module.css';
import marks from '../../picture/marks.module.css';
import { Picture, type PictureTable } from '../../picture/Picture';
import { type DecisionView, verdictSentence } from '../decision';

/** The decision on one light output: in words, with its picture. */
export function DecisionCard({ decision }: { readonly decision: DecisionView }) {
  const { id, label, verdict, probability, rule, guard } = decision;
  const title = `decision-${id}`;
  return (
    <section aria-labelledby={title}>
      <h3 id={title}>
        {label}: <strong>{verdict}</strong>
      </h3>
      <Picture title={label} table={tableOf(decision)}>
        <DecisionPicture decision={decision} />
      </Picture>
      <p class={look.sentence}>{verdictSentence(decision)}</p>
      <p class={look.quiet}>
        {probability === undefined ? '' : `Probability to conform ${percent(probability)}. `}Rule: {rule}.
        {guard > 0 && ' Hatched is its guard band: the dot decides, not the ends of its bar.'}
      </p>
    </section>
  );
}

function tableOf({ value, expanded, limit, guard, verdict }: DecisionView): PictureTable {
  const lm = (n: number) => `${Math.round(n)} lm`;
  return {
    head: ['figure', 'light output'],
    rows: [
      ['result', reportText(value, expanded, 'lm')],
      ['from', lm(value - expanded)],
      ['to', lm(value + expanded)],
      ['limit', lm(limit)],
      ...(guard > 0 ? [['with its guard band', lm(limit + guard)]] : []),
      ['decision', verdict],
    ],
  };
}

/** Never 0 or 100 %: a probability that rounds to either is only near it. */
function percent(probability: number): string {
  if (probability > 0.9995) return 'over 99.9 %';
  if (probability < 0.0005) return 'under 0.1 %';
  return `${(100 * probability).toFixed(1)} %`;
}

/** Drawing size in its own units; the picture fills the pane's width. */
const WIDE = 300;
const HIGH = 78;
const EDGE = 14;
const BAR = 46;

/**
 * Value and interval as a dot with a capped bar, the limit as a line, the guard band hatched: told apart by shape,
 * so that it reads in grey and in the user's own colours as well.
 */
function DecisionPicture({ decision }: { readonly decision: DecisionView }) {
  const { id, value, expanded, limit, guard, hasFour, words } = decision;
  const low = Math.min(value - expanded, limit - (hasFour ? guard : 0));
  const high = Math.max(value + expanded, limit + guard);
  const span = high - low || 1;
  const x = (lm: number) => EDGE + ((lm - low) / span) * (WIDE - 2 * EDGE);
  const from = x(hasFour ? limit - guard : limit);
  // A label near the right edge is written towards the left.
  const anchor = (at: number) => (at > WIDE * 0.7 ? 'end' : at < WIDE * 0.3 ? 'start' : 'middle');
  return (
    <svg class={marks.drawing} viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={words}>
      <defs>
        <pattern
          id={`hatch-${id}`}
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line x1="0" y1="0" x2="0" y2="6" class={marks.hatch} />
        </pattern>
      </defs>
      {guard > 0 && (
        <rect
          class={marks.guard}
          x={from}
          y="18"
          width={x(limit + guard) - from}
          height={HIGH - 36}
          fill={`url(#hatch-${id})`}
        />
      )}
      <line class={marks.limit} x1={x(limit)} y1="14" x2={x(limit)} y2={HIGH - 14} />
      <text x={x(limit)} y="10" text-anchor={anchor(x(limit))}>
        limit {Math.round(limit)} lm
      </text>
      <path
        class={marks.interval}
        d={`M${x(value - expanded)} ${BAR - 6}v12m0 -6H${x(value + expanded)}m0 -6v12`}
      />
      <circle class={marks.dot} cx={x(value)} cy={BAR} r="5" />
      <text x={x(value)} y={HIGH - 2} text-anchor={anchor(x(value))}>
        {reportText(value, expanded, 'lm')}
      </text>
    </svg>
  );
}
