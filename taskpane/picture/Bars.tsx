import marks from './marks.module.css';

/** A line of a picture of bars: from nought to its value, with its interval where there is one. */
interface BarLine {
  readonly label: string;
  readonly text: string;
  readonly value: number;
  readonly expanded?: number;
}

const WIDE = 300;
const STEP = 34;
const THICK = 10;
/** Room to the right for the cap of the longest interval. */
const EDGE = 6;
/** Letters of a label that fit beside the figure. */
const LETTERS = 34;

export interface BarsProps {
  readonly lines: readonly BarLine[];
  /** Value of a whole bar. */
  readonly most: number;
}

/** Bars below their words and figures, as one drawing. */
export function Bars({ lines, most }: BarsProps) {
  const x = (value: number) => (Math.max(0, value) / most) * (WIDE - EDGE);
  return (
    <svg
      class={marks.drawing}
      viewBox={`0 0 ${WIDE} ${lines.length * STEP}`}
      role="img"
      aria-label={lines.map(({ label, text }) => `${label}: ${text}`).join('; ')}
    >
      {lines.map(({ label, text, value, expanded }, i) => {
        const top = i * STEP + 16;
        return (
          <g key={i}>
            <text x="0" y={top - 4}>
              {label.length > LETTERS ? `${label.slice(0, LETTERS - 1)}…` : label}
            </text>
            <text x={WIDE - 1} y={top - 4} text-anchor="end">
              {text}
            </text>
            <rect class={marks.whole} x="0" y={top} width={WIDE - EDGE} height={THICK} />
            <rect class={marks.bar} x="0" y={top} width={x(value)} height={THICK} />
            {expanded !== undefined && (
              <path
                class={marks.interval}
                d={`M${x(value - expanded)} ${top}v${THICK}m0 ${-THICK / 2}H${x(value + expanded)}m0 ${-THICK / 2}v${THICK}`}
              />
            )}
          </g>
        );
      })}
    </svg>
  );
}
