import type { SheetReading } from '../../src/excel/host';
import { runTask } from './runtask';
import { spotTask } from './spottask';
import type { Task } from './task';

/** Kinds of sheets that readings are taken for. */
const CAPTURED = ['run', 'spot'] as const;

export function isCaptured(kind: string): boolean {
  return CAPTURED.some((known) => known === kind);
}

/** What there is to read on a sheet; undefined for sheets without readings. */
export function taskOf(reading: SheetReading): Task | undefined {
  if (reading.kind === 'run') return runTask(reading);
  return reading.kind === 'spot' ? spotTask(reading) : undefined;
}
