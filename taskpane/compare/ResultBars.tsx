import own from './ResultBars.module.css';

import type { ComparedResult } from './view';

const WIDE = 300;
const HIGH = 18;
/** Room to the right for the cap of the longest interval. */
const EDGE = 4;

/** One bar a run from nought, with its interval as a capped line; words and figures stand above each. */
export function ResultBars({ result: { label, bars } }: { readonly result: ComparedResult }) {
  const most = Math.max(...bars.map(({ value = 0, expanded = 0 }) => value + expanded)) || 1;
  const x = (value: number) => (Math.max(0, value) / most) * (WIDE - EDGE);
  return (
    <ul class={own.bars} aria-label={label}>
      {bars.map(({ name, value, expanded, text }, i) => (
        // By place: two runs may bear the name of one projector.
        <li key={i}>
          <span>{name}</span>
          <strong>{text}</strong>
          {value !== undefined && (
            <svg viewBox={`0 0 ${WIDE} ${HIGH}`} aria-hidden="true">
              <rect class={own.bar} x="0" y="3" width={x(value)} height={HIGH - 6} />
              {expanded !== undefined && (
                <path
                  class={own.interval}
                  d={`M${x(value - expanded)} 3v${HIGH - 6}m0 ${-(HIGH - 6) / 2}H${x(value + expanded)}m0 ${-(HIGH - 6) / 2}v${HIGH - 6}`}
                />
              )}
            </svg>
          )}
        </li>
      ))}
    </ul>
  );
}
