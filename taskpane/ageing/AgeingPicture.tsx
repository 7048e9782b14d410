import marks from '../picture/marks.module.css';

import { type AgeingDrawing, HIGH, WIDE } from './picture';

/**
 * Measurements as dots with capped bars, the fit as a line that is dashed where it is projected, the level as a
 * dotted line and the interval as a bar on it: told apart by shape, so that it reads in grey as well.
 */
export function AgeingPicture({ drawing }: { readonly drawing: AgeingDrawing }) {
  const { points, measured, projected, level, interval, ticks, words } = drawing;
  return (
    <svg class={marks.drawing} viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={words}>
      <path class={marks.axis} d={`M40 12V${HIGH - 24}H${WIDE - 8}`} />
      {ticks.map(({ at, label, along }) =>
        along === 'hours' ? (
          <text key={`h${label}`} x={at} y={HIGH - 12} text-anchor="middle">
            {label}
          </text>
        ) : (
          <text key={`l${label}`} x="36" y={at + 3} text-anchor="end">
            {label}
          </text>
        ),
      )}
      <text x={WIDE - 8} y={HIGH - 1} text-anchor="end">
        hours
      </text>
      <text x="2" y="9">
        lm
      </text>
      <path class={marks.level} d={`M40 ${level.y}H${WIDE - 8}`} />
      <text x={WIDE - 8} y={level.y - 4} text-anchor="end">
        {level.label}
      </text>
      <path class={marks.fit} d={measured} />
      <path class={`${marks.fit} ${marks.projected}`} d={projected} />
      {interval && (
        <path
          class={marks.interval}
          d={`M${interval.from} ${level.y - 5}v10m0 -5H${interval.to}${interval.isOpen ? 'l-5 -4m5 4l-5 4' : 'm0 -5v10'}`}
        />
      )}
      {interval?.at !== undefined && (
        <path class={marks.cross} d={`M${interval.at - 4} ${level.y - 4}l8 8m0 -8l-8 8`} />
      )}
      {points.map(({ x, y, half }) => (
        <g key={`${x} ${y}`}>
          {half > 0 && <path d={`M${x - 3} ${y - half}h6m-3 0V${y + half}m-3 0h6`} />}
          <circle class={marks.dot} cx={x} cy={y} r="3" />
        </g>
      ))}
    </svg>
  );
}
