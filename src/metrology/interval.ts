import { sortEnds } from './select';

/** Coverage intervals from trials (JCGM 101, 7.7). */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** How many steps of the sorted trials an interval at this level spans. */
function span(trials: number, level: number): number {
  return Math.min(trials - 1, Math.floor(level * trials + 0.5));
}

/** Sorts trials as far as both intervals at this level need it: at either end, as many as may stay outside. */
export function sortForIntervals(trials: Float64Array, level: number): void {
  sortEnds(trials, trials.length - span(trials.length, level) + 1);
}

/** Probabilistically symmetric: as many trials below it as above. */
export function symmetricInterval(sorted: Float64Array, level: number): Interval {
  const q = span(sorted.length, level);
  const r = Math.max(1, Math.floor((sorted.length - q + 1) / 2));
  // The standard counts from 1.
  return { low: sorted[r - 1]!, high: sorted[r - 1 + q]! };
}

/** Shortest of all intervals that hold the same number of trials; the lowest of equally short ones. */
export function shortestInterval(sorted: Float64Array, level: number): Interval {
  const q = span(sorted.length, level);
  let best = 0;
  sorted.subarray(q).forEach((high, r) => {
    if (high - sorted[r]! < sorted[best + q]! - sorted[best]!) best = r;
  });
  return { low: sorted[best]!, high: sorted[best + q]! };
}
