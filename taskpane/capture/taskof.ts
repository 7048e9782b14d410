import type { Host, KnownSheet } from '../../src/excel/host';
import { batchTask } from './batchtask';
import { runTask } from './runtask';
import { spotTask } from './spottask';
import type { Task } from './task';

/** Kinds of sheets that readings are taken for. */
const CAPTURED = ['run', 'spot', 'batch'] as const;

export function isCaptured(kind: string): boolean {
  return CAPTURED.some((known) => known === kind);
}

/** What there is to read on a sheet; undefined for sheets without readings. */
export async function taskOf(host: Host, { sheet, kind, id }: KnownSheet): Promise<Task | undefined> {
  if (kind === 'run') return runTask(await host.read(sheet));
  if (kind === 'spot') return spotTask(await host.read(sheet));
  return kind === 'batch' ? batchTask(host, { sheet, id }) : undefined;
}
