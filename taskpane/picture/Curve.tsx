import type { CurvePoint } from '../../src/procurement/lot/curve';
import { chance } from '../../src/procurement/wording/format';
import marks from './marks.module.css';

const [WIDE, HIGH] = [300, 170];
const [LEFT, TOP, RIGHT, BOTTOM] = [36, 10, 8, 30];
/** Heights that are named, in parts of 1. */
const MARKS = [0, 0.1, 0.5, 0.95, 1];

export interface CurveProps {
  readonly points: readonly CurvePoint[];
  readonly lotSize: number;
  readonly words: string;
}

/** How probably a lot is accepted, over how many of its units fail: steps, as there are only whole units. */
export function Curve({ points, lotSize, words }: CurveProps) {
  const most = points.at(-1)!.nonconforming || 1;
  const x = (units: number) => LEFT + (units / most) * (WIDE - LEFT - RIGHT);
  const y = (part: number) => TOP + (1 - part) * (HIGH - TOP - BOTTOM);
  const path = points.map(({ nonconforming, probability }, i) => {
    const at = `${x(nonconforming).toFixed(1)} ${y(probability).toFixed(1)}`;
    return `${i === 0 ? 'M' : 'L'}${at}`;
  });
  return (
    <svg class={marks.drawing} viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={words}>
      <path class={marks.axis} d={`M${LEFT} ${TOP}V${HIGH - BOTTOM}H${WIDE - RIGHT}`} />
      {MARKS.map((part) => (
        <g key={part}>
          <path class={marks.level} d={`M${LEFT} ${y(part)}H${WIDE - RIGHT}`} />
          {part !== 1 && (
            <text x={LEFT - 4} y={y(part) + 4} text-anchor="end">
              {100 * part} %
            </text>
          )}
        </g>
      ))}
      <path class={marks.fit} d={path.join('')} />
      {points.map(({ nonconforming, probability }) => (
        <circle key={nonconforming} class={marks.dot} cx={x(nonconforming)} cy={y(probability)} r="3.5">
          <title>{`${nonconforming} of ${lotSize}: ${chance(probability)}`}</title>
        </circle>
      ))}
      <text x={LEFT} y={HIGH - BOTTOM + 14} text-anchor="middle">
        0
      </text>
      <text x={WIDE - RIGHT} y={HIGH - BOTTOM + 14} text-anchor="end">
        {most}
      </text>
      <text class={marks.faint} x={(LEFT + WIDE - RIGHT) / 2} y={HIGH - 4} text-anchor="middle">
        units of {lotSize} that do not conform
      </text>
    </svg>
  );
}
