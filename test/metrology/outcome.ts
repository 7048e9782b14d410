import type { Outcome, Problem } from '../../src/photometry/outcome';

/** The value, or a failed test that shows the problems. */
export function got<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(' '));
  return outcome.value;
}

/** The problems, or a failed test. */
export function problemsOf(outcome: Outcome<unknown>): readonly Problem[] {
  if (outcome.ok) throw new Error(`Expected problems, got ${JSON.stringify(outcome.value)}.`);
  return outcome.problems;
}

/** Half a unit of the last printed digit: "0.0032" → 0.00005. */
export function halfUnit(printed: string): number {
  const decimals = printed.split('.')[1]?.length ?? 0;
  return 0.5 * 10 ** -decimals * (1 + 1e-9);
}
