/** What came out, as far as a sheet decides anything: its worst decision. */
export type Outcome = 'bad' | 'good';

/** Decisions against what was asked for, as sheets word them. */
const BAD: readonly string[] = ['fail', 'conditional fail', 'rejected'];
const GOOD: readonly string[] = ['pass', 'conditional pass', 'accepted'];

/** One bad decision outweighs all others; undefined where nothing is decided. */
export function outcomeOf(decisions: readonly string[]): Outcome | undefined {
  const words = decisions.map((decision) => decision.toLowerCase());
  if (words.some((word) => BAD.includes(word))) return 'bad';
  return words.some((word) => GOOD.includes(word)) ? 'good' : undefined;
}
