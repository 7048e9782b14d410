import type { Outcome, Problem } from '../../src/photometry/outcome';

/** The value, or a failed test that shows the problems. */
export function goodOf<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(' '));
  return outcome.value;
}

/** The problems, or a failed test that shows the value. */
export function problemsOf(outcome: Outcome<unknown>): readonly Problem[] {
  if (outcome.ok) throw new Error(`Expected problems, got ${JSON.stringify(outcome.value)}.`);
  return outcome.problems;
}
