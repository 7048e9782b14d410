import type { Group, Step } from './task';

/** Range factors a meter may have; the sheet takes more (`RANGE_FACTOR`). */
const LEAST = 0.001;
const MOST = 100_000;

/** The next range up or down: a factor of 10, kept free of rounding dust. */
export function shiftedRange(factor: number, steps: 1 | -1): number {
  const shifted = Number((factor * 10 ** steps).toPrecision(12));
  return shifted < LEAST || shifted > MOST ? factor : shifted;
}

/** Why the range factor of a step cannot be chosen here; undefined if it can. */
export function rangeLock(
  step: Step,
  group: Pick<Group, 'hasOneRange' | 'oneRangeFor'>,
  isBegun: boolean,
): string | undefined {
  const { oneRangeFor } = group;
  if (step.isRangeShared) {
    return oneRangeFor === undefined
      ? `A repeat is read in the range of the first time, × ${step.factor}: set the meter to it.`
      : `The sheet has one range factor for ${oneRangeFor}, × ${step.factor}: set the meter to it.`;
  }
  if (group.hasOneRange && isBegun)
    return `The sheet has one range factor for ${oneRangeFor ?? 'the whole board'}, × ${step.factor}, and readings stand there already: set the meter to it.`;
  return undefined;
}
