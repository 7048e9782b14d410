import { fittedOutput } from '../../src/procurement/ageing/fit';
import type { Measurement } from '../../src/sheets/ageing/setup';
import type { AgeingAnswer } from './forecast';

/** Drawing size in its own units. */
export const WIDE = 300;
export const HIGH = 170;
const LEFT = 40;
const BOTTOM = 24;
const TOP = 12;
const RIGHT = 8;
/** Straight pieces a curve is drawn with. */
const PIECES = 40;

export interface AgeingDrawing {
  readonly points: readonly { readonly x: number; readonly y: number; readonly half: number }[];
  /** SVG path data: what was measured through, and what is projected. */
  readonly measured: string;
  readonly projected: string;
  /** The light the room needs, or 70 %. */
  readonly level: { readonly y: number; readonly label: string };
  /** Interval of the crossing; `isOpen` where it has no upper end. */
  readonly interval:
    | { readonly from: number; readonly to: number; readonly isOpen: boolean; readonly at?: number }
    | undefined;
  readonly ticks: readonly {
    readonly at: number;
    readonly label: string;
    readonly along: 'hours' | 'light';
  }[];
  readonly words: string;
}

/** The measurements, the fitted curve and the level watched, to scale. */
export function drawing(points: readonly Measurement[], found: AgeingAnswer): AgeingDrawing {
  const { fit, to } = found;
  const watched = to[2] ?? to[0]!;
  const { target, hours, interval, capped } = watched.result;
  // The crossing is what the picture is for, so it is on it unless nothing may be said of it; a far upper end is not.
  const crossing = hours === undefined || capped ? 0 : hours;
  const upper = interval?.upper ?? 0;
  const ends = [crossing, upper <= 1.5 * crossing ? upper : 0];
  const right = Math.max(fit.lastHours * 1.2, ...ends.map((at) => at * 1.08));
  const highest =
    Math.max(fit.start, target, ...points.map(({ output, expanded = 0 }) => output + expanded)) * 1.04;
  const lowest = Math.min(target, fittedOutput(fit, right), ...points.map(({ output }) => output));
  const floor = lowest * 0.94;
  const x = (at: number) => LEFT + (Math.min(at, right) / right) * (WIDE - LEFT - RIGHT);
  const y = (lm: number) => TOP + ((highest - lm) / (highest - floor)) * (HIGH - TOP - BOTTOM);
  const curve = (from: number, until: number) =>
    Array.from({ length: PIECES + 1 }, (_, i) => {
      const at = from + ((until - from) * i) / PIECES;
      return `${i === 0 ? 'M' : 'L'}${x(at).toFixed(1)} ${y(fittedOutput(fit, at)).toFixed(1)}`;
    }).join('');
  return {
    points: points.map(({ hours: at, output, expanded = 0 }) => ({
      x: x(at),
      y: y(output),
      half: y(output) - y(output + expanded),
    })),
    measured: curve(fit.firstHours, fit.lastHours),
    projected: curve(fit.lastHours, right),
    level: { y: y(target), label: to[2] ? 'need' : '70 %' },
    interval:
      interval && interval.lower < right
        ? {
            from: x(interval.lower),
            to: x(interval.upper ?? right),
            isOpen: interval.upper === undefined || interval.upper > right,
            ...(hours !== undefined && !capped && hours <= right ? { at: x(hours) } : {}),
          }
        : undefined,
    ticks: [
      ...rounds(0, right).map((at) => ({ at: x(at), label: String(at), along: 'hours' as const })),
      ...rounds(floor, highest).map((at) => ({ at: y(at), label: String(at), along: 'light' as const })),
    ],
    words: `Light output over hours: ${points.length} measurements from ${Math.round(fit.firstHours)} to ${Math.round(fit.lastHours)} h. ${found.rate} Down to ${watched.label}: ${watched.sentence}`,
  };
}

/** Three to five round numbers within a span. */
function rounds(low: number, high: number): number[] {
  const rough = (high - low) / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough)!;
  const first = Math.ceil(low / step);
  const found: number[] = [];
  for (let n = first; n * step <= high; n++) found.push(Number((n * step).toPrecision(10)));
  return found;
}
