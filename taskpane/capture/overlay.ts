import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { CellPlace } from '../../src/excel/host';
import { ILLUMINANCE_UNITS } from '../../src/photometry/units';
import type { CellValue } from '../../src/sheets/book';
import { isSettled, type JournalRecord } from './entry';
import { type Step, stepKey, type Task } from './task';

/**
 * The sheet as this window knows it: what the pane last read, with what was accepted here laid over it until the
 * pane has read it back. So nothing that was typed seems to vanish while it is on its way.
 */
export interface Overlay {
  /** With the newest values in its steps. */
  readonly task: ReadonlySignal<Task | undefined>;
  /** The sheet as read at `asOf` (the pane's clock). */
  read(task: Task, asOf: number): void;
  /** Something was accepted here, or known from before and still waiting. */
  lay(record: JournalRecord): void;
  /** What became of it, at `time` of the pane's clock. */
  settle(record: JournalRecord, time: number): void;
  /** What a cell holds, as far as is known. */
  held(place: CellPlace): CellValue;
}

interface Laid {
  readonly id: string;
  readonly value: CellValue;
  readonly settledAt?: number;
}

export function createOverlay(): Overlay {
  const read = signal<Task | undefined>(undefined);
  const laid = signal<ReadonlyMap<string, Laid>>(new Map());

  const lay = (record: JournalRecord, value: (i: number) => CellValue, settledAt?: number) => {
    const next = new Map(laid.peek());
    record.entry.writes.forEach((write, i) => {
      const key = stepKey(write);
      const over = next.get(key);
      // A newer entry for the same cell stays on top.
      if (settledAt !== undefined && over?.id !== record.entry.id) return;
      next.set(key, {
        id: record.entry.id,
        value: value(i),
        ...(settledAt === undefined ? {} : { settledAt }),
      });
    });
    laid.value = next;
  };

  const task = computed(() => read.value && withCells(read.value, laid.value));
  return {
    task,
    read: (next, asOf) => {
      // A look that began before the cell was written does not know of it.
      const open = [...laid.peek()].filter(
        ([, { settledAt }]) => settledAt === undefined || settledAt >= asOf,
      );
      laid.value = new Map(open);
      read.value = next;
    },
    lay: (record) => lay(record, (i) => record.entry.writes[i]!.value),
    settle: (record, time) => {
      if (!isSettled(record)) return;
      const isMine = record.state === 'written';
      const { writes } = record.entry;
      lay(record, (i) => (isMine ? writes[i]!.value : (record.held?.[i] ?? writes[i]!.before)), time);
    },
    held: (place) => {
      const over = laid.peek().get(stepKey(place));
      if (over) return over.value;
      const step = read.peek()?.groups.flatMap(({ steps }) => steps);
      const at = step?.find(({ key }) => key === stepKey(place));
      if (at) return at.value;
      return step?.find(({ rangeAt }) => stepKey(rangeAt) === stepKey(place))?.factor ?? null;
    },
  };
}

function withCells(task: Task, laid: ReadonlyMap<string, Laid>): Task {
  if (laid.size === 0) return task;
  const unit = task.cells.unit && laid.get(stepKey(task.cells.unit))?.value;
  const mode = task.cells.mode && laid.get(stepKey(task.cells.mode))?.value;
  return {
    ...task,
    unit: ILLUMINANCE_UNITS.find((known) => known === unit) ?? task.unit,
    mode: typeof mode === 'string' ? mode : task.mode,
    groups: task.groups.map((group) => ({
      ...group,
      steps: group.steps.map((step) => withCell(step, laid)),
    })),
  };
}

function withCell(step: Step, laid: ReadonlyMap<string, Laid>): Step {
  const [value, factor] = [laid.get(step.key), laid.get(stepKey(step.rangeAt))];
  if (!value && !factor) return step;
  return {
    ...step,
    ...(value ? { value: value.value } : {}),
    ...(factor && typeof factor.value === 'number' ? { factor: factor.value } : {}),
  };
}
