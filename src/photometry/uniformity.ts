import { bad, good, invalid, type Outcome } from './outcome';
import { CENTRE } from './points';
import { mean } from './reading';

/** Smallest ÷ largest of nine illuminances (ISO 11315-1:1997: g = E_min ÷ E_max). */
export function minOverMax(nine: readonly number[]): Outcome<number> {
  return share(Math.min(...nine), Math.max(...nine), 'largest reading');
}

/** Smallest ÷ mean of nine illuminances (common practice). */
export function minOverMean(nine: readonly number[]): Outcome<number> {
  return share(Math.min(...nine), mean(nine), 'mean of nine readings');
}

/** Mean of points 10 to 13 ÷ centre (a specification-sheet item of ISO/IEC 21118; mean of corners: from memory). */
export function cornersOverCentre(nine: readonly number[], corners: readonly number[]): Outcome<number> {
  return share(mean(corners), nine[CENTRE]!, 'centre reading');
}

export interface Deviations {
  /** Fractions of the mean of nine: +0.147 is 14.7 % above, −0.157 is 15.7 % below. */
  readonly plus: number;
  readonly minus: number;
}

/**
 * Light uniformity as the largest deviations of thirteen points from the mean of **nine**
 * (IEC 61947-1, ANSI/NAPM IT7.228; from memory).
 */
export function deviations(nine: readonly number[], corners: readonly number[]): Outcome<Deviations> {
  const average = mean(nine);
  if (!(average > 0)) return bad(noLight('mean of nine readings'));
  const thirteen = [...nine, ...corners];
  return good({ plus: Math.max(...thirteen) / average - 1, minus: Math.min(...thirteen) / average - 1 });
}

function share(part: number, whole: number, where: string): Outcome<number> {
  return whole > 0 ? good(part / whole) : bad(noLight(where));
}

function noLight(where: string) {
  return invalid('not-defined', where, `Uniformity is not defined: the ${where} is 0 lx.`);
}
