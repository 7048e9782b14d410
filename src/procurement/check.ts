import { notFinite } from '../metrology/check';
import type { Bounds } from '../photometry/bounds';
import { invalid, type Problem } from '../photometry/outcome';

/** A problem unless `value` is a part of a whole: more than 0, at most 1. */
export function notPart(value: number, where: string): Problem[] {
  const problems = notFinite(value, where);
  if (problems.length > 0 || (value > 0 && value <= 1)) return problems;
  return [invalid('out-of-bounds', where, `The ${where} must be more than 0 and at most 1; it is ${value}.`)];
}

/** A problem unless `value` lies within bounds. */
export function notWithin(value: number, where: string, { min, max }: Bounds): Problem[] {
  const problems = notFinite(value, where);
  if (problems.length > 0 || (value >= min && value <= max)) return problems;
  return [invalid('out-of-bounds', where, `The ${where} must be from ${min} to ${max}; it is ${value}.`)];
}

/** A problem unless `value` is a whole number from `min` to `max`. */
export function notWhole(
  value: number,
  where: string,
  min: number,
  max = Number.POSITIVE_INFINITY,
): Problem[] {
  if (Number.isInteger(value) && value >= min && value <= max) return [];
  const bounds = max === Number.POSITIVE_INFINITY ? `of at least ${min}` : `from ${min} to ${max}`;
  return [invalid('out-of-bounds', where, `The ${where} must be a whole number ${bounds}; it is ${value}.`)];
}
