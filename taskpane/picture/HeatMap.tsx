import marks from './marks.module.css';

const [WIDE, HIGH] = [56, 34];
const EDGE = 2;
/** A cell is at least this opaque, so that the darkest point is still a field. */
const FAINTEST = 0.12;
/** Above this the figure is written in the colour that stands on the accent. */
const DARK = 0.62;

export interface HeatMapProps {
  /** Readings as they lie on the screen; null where there is none. */
  readonly values: readonly (readonly (number | null)[])[];
  /** The whole picture in words. */
  readonly words: string;
}

/** A field as it lies on the screen: every reading as a figure, darker where there is more light; ▲ most, ▼ least. */
export function HeatMap({ values, words }: HeatMapProps) {
  const read = values.flat().filter((value) => value !== null);
  const [least, most] = [Math.min(...read), Math.max(...read)];
  const columns = Math.max(...values.map((row) => row.length));
  return (
    <svg
      class={marks.drawing}
      viewBox={`0 0 ${columns * WIDE + 2 * EDGE} ${values.length * HIGH + 2 * EDGE}`}
      role="img"
      aria-label={words}
    >
      {values.map((row, y) =>
        row.map((value, x) => {
          const share = value === null || most === least ? 0.5 : (value - least) / (most - least);
          const opacity = value === null ? 0 : FAINTEST + (1 - FAINTEST) * share;
          const [left, top] = [EDGE + x * WIDE, EDGE + y * HIGH];
          const sign = least === most ? '' : value === most ? ' ▲' : value === least ? ' ▼' : '';
          return (
            <g key={`${x} ${y}`}>
              <rect
                class={marks.cell}
                x={left}
                y={top}
                width={WIDE}
                height={HIGH}
                style={{ fillOpacity: opacity }}
              />
              <rect class={marks.frame} x={left} y={top} width={WIDE} height={HIGH} />
              <text
                class={opacity > DARK ? marks.onDark : ''}
                x={left + WIDE / 2}
                y={top + HIGH / 2 + 4}
                text-anchor="middle"
              >
                {value ?? '–'}
                {sign}
              </text>
            </g>
          );
        }),
      )}
    </svg>
  );
}
