import { explain, type Outcome } from '../../src/photometry/outcome';
import { type AgeingFit, fitAgeing } from '../../src/procurement/ageing/fit';
import {
  type HoursTo,
  hoursTo,
  hoursToPart,
  type Initial,
  initialOf,
} from '../../src/procurement/ageing/hours';
import { type NextMeasurement, nextMeasurement } from '../../src/procurement/ageing/next';
import { FEWEST_POINTS } from '../../src/procurement/ageing/points';
import { whole } from '../../src/procurement/wording/format';
import type { AgeingSetup } from '../../src/sheets/ageing/setup';

/** What the measurements of a unit say of its ageing. */
export interface AgeingAnswer {
  readonly fit: AgeingFit;
  readonly initial: Initial;
  /** 70 %, 50 % and the need, if there is one. */
  readonly to: readonly { readonly label: string; readonly result: HoursTo; readonly sentence: string }[];
  readonly next: NextMeasurement;
  /** How fast the light falls, in words. */
  readonly rate: string;
}

/** The answer, or in words what is missing for one. */
export function answer(setup: AgeingSetup): AgeingAnswer | string {
  const { points, stated, needed, level, hoursPerYear } = setup;
  const missing = FEWEST_POINTS - points.length;
  if (missing > 0) return `${missing} more ${missing === 1 ? 'measurement is' : 'measurements are'} needed.`;
  const begun = points.findIndex(({ hours }) => hours > 0);
  if (points.some(({ hours }, i) => hours === 0 && begun >= 0 && i > begun))
    return 'A measurement at 0 h must come first: further down the sheet could not tell it from an empty cell.';
  const last = points.reduce((a, b) => (b.hours >= a.hours ? b : a));
  try {
    const fit = must(fitAgeing(points));
    const initial = must(initialOf(fit, stated));
    const to70 = must(hoursToPart(fit, initial, 0.7, level));
    const toNeed = needed === undefined ? undefined : must(hoursTo(fit, initial, needed, level));
    const results = [
      { label: '70 % of the initial light', result: to70 },
      { label: '50 % of the initial light', result: must(hoursToPart(fit, initial, 0.5, level)) },
      ...(toNeed ? [{ label: `the ${whole(toNeed.target)} lm the room needs`, result: toNeed }] : []),
    ];
    const use = { hoursPerYear, ...(last.date ? { lastDate: last.date } : {}) };
    return {
      fit,
      initial,
      to: results.map((one) => ({ ...one, sentence: sentenceOf(one.result, fit) })),
      next: must(nextMeasurement(fit, toNeed ?? to70, use)),
      rate:
        fit.rate > 0
          ? `The light falls by ${(100 * (1 - Math.exp(-1000 * fit.rate))).toPrecision(2)} % in 1000 h; a single measurement lies ${(100 * fit.sd).toPrecision(2)} % off the line (one standard deviation).`
          : 'No fall is seen in these measurements.',
    };
  } catch (error) {
    if (error instanceof Unfit) return error.message;
    throw error;
  }
}

/** Words of the pure room about figures that do not fit together. */
class Unfit extends Error {}

function must<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Unfit(explain(outcome.problems));
}

/** "18 329 h (17 900 to 18 800 h at 95.45 %), projected beyond …". */
function sentenceOf({ state, hours, interval, level, cap }: HoursTo, fit: AgeingFit): string {
  const at = `at ${Number((100 * level).toPrecision(6))} %`;
  if (state === 'no fall seen' || hours === undefined) {
    if (!interval) return 'no fall seen, but too scattered to tell whether the light is still above it.';
    return `no fall seen; not before ${whole(interval.lower)} h, ${at}.`;
  }
  if (state === 'reached' && fit.rate <= 0)
    return 'by the fit the light lies at or below it at every hour measured.';
  const until = interval?.upper === undefined ? 'open' : `${whole(interval.upper)} h`;
  const within = interval
    ? ` (from ${whole(interval.lower)} h, to ${until}, ${at})`
    : ` (too scattered ${state === 'reached' ? 'for an interval' : 'to tell whether the light is still above it'})`;
  if (state === 'beyond the cap') return `more than ${whole(cap)} h${within}; beyond that nothing is said.`;
  if (state === 'reached') return `${whole(hours)} h${within}, within what was measured.`;
  return `${whole(hours)} h${within}, projected beyond the last measurement at ${whole(fit.lastHours)} h.`;
}
