import { isOverRange } from '../../src/photometry/overrange';
import { isBlank, type RawCell } from '../../src/photometry/reading';
import type { CellValue } from '../../src/sheets/book';
import type { Group, Step } from './task';

/**
 * The readings one after another. `serpentine` walks every second row of a grid from right to left, which saves
 * the way back across a wide screen.
 */
export function arrange(groups: readonly Group[], serpentine: boolean): readonly Step[] {
  return groups.flatMap(({ steps, rows, columns }) =>
    Array.from({ length: rows }, (_, row) => {
      const line = steps.slice(row * columns, (row + 1) * columns);
      return serpentine && row % 2 === 1 ? line.reverse() : line;
    }).flat(),
  );
}

/** Whether a step still wants a number: nothing there, over range, 0 where 0 is none, or no reading at all. */
export function isOpen({ value, zero }: Pick<Step, 'value' | 'zero'>): boolean {
  return numberOf(value, zero) === undefined;
}

/** The number that stands as a reading; undefined where there is none. */
export function numberOf(value: CellValue, zero: Step['zero']): number | undefined {
  if (typeof value !== 'number' || !Number.isFinite(value) || value < 0) return undefined;
  return value === 0 && zero === 'missing' ? undefined : value;
}

export type StepState = 'open' | 'taken' | 'over' | 'unreadable';

export function stateOf(step: Pick<Step, 'value' | 'zero'>): StepState {
  if (!isOpen(step)) return 'taken';
  if (isOverRange(step.value as RawCell)) return 'over';
  return isBlank(step.value as RawCell) || step.value === 0 ? 'open' : 'unreadable';
}

/**
 * The reading to take next: the first open one after `key`, else the first open one, and the closing reading only
 * when nothing else is open. Undefined when all are taken. Without a key it begins at the front.
 */
export function nextOpen(
  steps: readonly Step[],
  isClosing: (step: Step) => boolean,
  key?: string,
): Step | undefined {
  const at = steps.findIndex((step) => step.key === key);
  const open = steps.filter((step) => isOpen(step) && step.key !== key);
  const inTurn = open.filter((step) => !isClosing(step));
  return inTurn.find((step) => steps.indexOf(step) > at) ?? inTurn[0] ?? open[0];
}

/** The step so many places on; it stops at either end. */
export function stepBy(steps: readonly Step[], key: string, by: number): Step | undefined {
  const at = steps.findIndex((step) => step.key === key);
  return steps[Math.max(0, Math.min(steps.length - 1, at + by))];
}
