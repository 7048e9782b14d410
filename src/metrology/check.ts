import { bad, good, invalid, type Outcome, type Problem } from '../photometry/outcome';

/** A problem unless `value` is a finite number. */
export function notFinite(value: number, where: string): Problem[] {
  return Number.isFinite(value)
    ? []
    : [invalid('not-a-number', where, `The ${where} must be a finite number; it is ${value}.`)];
}

/** A problem unless `value` is a finite number of at least 0. */
export function notAtLeastZero(value: number, where: string): Problem[] {
  const problems = notFinite(value, where);
  if (problems.length > 0 || value >= 0) return problems;
  return [invalid('negative', where, `The ${where} must not be negative; it is ${value}.`)];
}

/** A problem unless `value` is a finite number above 0. */
export function notAboveZero(value: number, where: string): Problem[] {
  const problems = notFinite(value, where);
  if (problems.length > 0 || value > 0) return problems;
  return [invalid('out-of-bounds', where, `The ${where} must be greater than 0; it is ${value}.`)];
}

/** A problem unless `value` lies strictly between 0 and 1. */
export function notProbability(value: number, where: string): Problem[] {
  if (value > 0 && value < 1) return [];
  return [
    invalid('out-of-bounds', where, `The ${where} must lie between 0 and 1, both excluded; it is ${value}.`),
  ];
}

/** A problem unless `value` is at least 1; infinity is allowed, it stands for "known well enough". */
export function notDegreesOfFreedom(value: number, where: string): Problem[] {
  if (value >= 1) return [];
  return [
    invalid(
      'not-defined',
      where,
      `The ${where} must be at least 1; they are ${value}. One repeat alone says nothing about repeatability: take at least two.`,
    ),
  ];
}

/** `make()` unless there are problems. */
export function unless<T>(problems: readonly Problem[], make: () => T): Outcome<T> {
  return problems.length > 0 ? bad(...problems) : good(make());
}
