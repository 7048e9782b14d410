import { expect } from 'vitest';
import type { Printed } from '../references/photometry';

/** Expects agreement to half a unit of the last printed digit; full-digit rows also allow a rounding of doubles. */
export function expectPrinted(actual: number, printed: string, note = ''): void {
  const decimals = printed.split('.')[1]?.length ?? 0;
  const value = Number(printed);
  const tolerance = Math.max(0.5 * 10 ** -decimals * (1 + 1e-9), 4 * Number.EPSILON * Math.abs(value));
  expect(
    Math.abs(actual - value),
    `${note} ${actual} should be ${printed} to its last digit`,
  ).toBeLessThanOrEqual(tolerance);
}

/** The same for a row with its source. */
export function expectRow(actual: number, { name, printed, source }: Printed): void {
  expectPrinted(actual, printed, `${name} (${source}):`);
}
