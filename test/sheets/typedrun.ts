import type { Plan } from '../../src/sheets/plan';
import type { RunSetup } from '../../src/sheets/runsetup';

/** A run with invented readings, and what was typed into each named input range. */
export interface RandomRun {
  readonly setup: RunSetup;
  readonly plan: Plan;
  readonly typed: Readonly<Record<string, (number | string)[][]>>;
}

/** A grid and its repeats. */
export function repeatsOf(
  { setup, typed }: Pick<RandomRun, 'setup' | 'typed'>,
  name: string,
  stem = name.replace('Readings', ''),
): number[][][] {
  return Array.from(
    { length: setup.repeats },
    (_, k) => typed[k === 0 ? name : `${stem}Repeat${k + 1}`] as number[][],
  );
}
