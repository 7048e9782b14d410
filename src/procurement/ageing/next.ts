import { notAboveZero } from '../../metrology/check';
import { bad, good, invalid, type Outcome } from '../../photometry/outcome';
import type { AgeingFit } from './fit';
import type { HoursTo } from './hours';

/** Measuring again sooner than this tells nothing new (common practice). */
const SHORTEST = 100;
/** Days in a year, on average. */
const YEAR = 365.25;
const DAY = 86_400_000;
/** The first moment that YYYY-MM-DD cannot write. */
const NO_DATE_FROM = Date.UTC(10_000, 0);

export interface NextMeasurement {
  /** Hours of the light source at which to measure again. */
  readonly hours: number;
  /** The day this falls on at the planned use (YYYY-MM-DD); only where the day of the last measurement is known. */
  readonly date?: string;
  /** True where it should be done at once. */
  readonly isDue: boolean;
  readonly why: string;
}

/**
 * When to measure again: half-way to the earliest hour at which the light may have fallen to what is needed, no
 * sooner than 100 h and no later than a year of use from the last measurement; at once where it may have fallen
 * there already, or where the measurements do not tell. A rule of ours (common practice: half the time left).
 */
export function nextMeasurement(
  fit: AgeingFit,
  toNeed: HoursTo,
  use: { readonly hoursPerYear: number; readonly lastDate?: string },
): Outcome<NextMeasurement> {
  const problems = notAboveZero(use.hoursPerYear, 'hours a year');
  const day = use.lastDate === undefined ? undefined : dayOf(use.lastDate);
  if (day?.ok === false) problems.push(...day.problems);
  if (problems.length > 0) return bad(...problems);
  const { gap, why } = gapAfter(fit.lastHours, toNeed, use.hoursPerYear);
  const date = day?.ok ? dateAfter(day.value, (gap / use.hoursPerYear) * YEAR) : undefined;
  return good({
    hours: fit.lastHours + gap,
    ...(date === undefined ? {} : { date }),
    isDue: gap === 0,
    why,
  });
}

function gapAfter(
  lastHours: number,
  { state, interval }: HoursTo,
  year: number,
): { readonly gap: number; readonly why: string } {
  if (state === 'reached') {
    return { gap: 0, why: 'By the fit the light is no more than what is needed.' };
  }
  if (!interval) {
    return {
      gap: 0,
      why: 'The measurements scatter too much to tell whether the light is still more than what is needed.',
    };
  }
  const earliest = interval.lower;
  if (earliest <= lastHours) {
    return { gap: 0, why: 'Within the interval the light may already have fallen to what is needed.' };
  }
  const half = (earliest - lastHours) / 2;
  if (half >= year) {
    const why = state === 'no fall seen' ? 'No fall is seen yet' : 'The need is far off';
    return { gap: year, why: `${why}: measure again after a year of use.` };
  }
  if (half <= SHORTEST) {
    return { gap: SHORTEST, why: 'The need is close: measure again after 100 hours.' };
  }
  return { gap: half, why: 'Half-way to the earliest hour at which the need may no longer be met.' };
}

/** Milliseconds of a day written YYYY-MM-DD; a day that the calendar does not have is a slip. */
function dayOf(text: string): Outcome<number> {
  const time = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(text) : Number.NaN;
  const isReal = Number.isFinite(time) && new Date(time).toISOString().startsWith(text);
  if (isReal) return good(time);
  return bad(
    invalid(
      'not-a-number',
      'day of the last measurement',
      `The day of the last measurement must be written YYYY-MM-DD; it is "${text}".`,
    ),
  );
}

/** Undefined after the year 9999. */
function dateAfter(from: number, days: number): string | undefined {
  const time = from + Math.floor(days) * DAY;
  return time < NO_DATE_FROM ? new Date(time).toISOString().slice(0, 10) : undefined;
}
