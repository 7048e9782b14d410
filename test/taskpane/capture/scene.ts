import { runPlan } from '../../../src/sheets/run';
import type { RunSetup } from '../../../src/sheets/runsetup';
import { type SpotSetup, spotPlan } from '../../../src/sheets/spot';
import { ENTRY_VERSION, type Entry } from '../../../taskpane/capture/entry';
import { runTask } from '../../../taskpane/capture/runtask';
import type { Shelf } from '../../../taskpane/capture/shelf';
import { spotTask } from '../../../taskpane/capture/spottask';
import type { Task } from '../../../taskpane/capture/task';
import { FakeHost } from '../fakehost';
import { SETUP } from '../scenes';

/** The task of a run sheet that has just been built. */
export async function runTaskOf(setup: Partial<RunSetup> = {}): Promise<Task> {
  const host = new FakeHost();
  const { sheet } = await host.build(runPlan({ ...SETUP, ...setup }, 'run00001'));
  return withSize(runTask(await host.read(sheet)));
}

export async function spotTaskOf(setup: SpotSetup): Promise<Task> {
  const host = new FakeHost();
  const { sheet } = await host.build(spotPlan(setup, 'spot0001'));
  return spotTask(await host.read(sheet));
}

/** The stand-in does not calculate; the sheet itself would say 1.92 × 1.2 m. */
function withSize(task: Task): Task {
  return { ...task, image: { width: 1.92, height: 1.2 } };
}

/** A storage that can be looked into, and can be full. */
export class TestShelf implements Shelf {
  readonly kept = new Map<string, string>();
  isFull = false;
  get length(): number {
    return this.kept.size;
  }
  key(index: number): string | null {
    return [...this.kept.keys()][index] ?? null;
  }
  getItem(key: string): string | null {
    return this.kept.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    if (this.isFull) throw new DOMException('full', 'QuotaExceededError');
    this.kept.set(key, value);
  }
  removeItem(key: string): void {
    this.kept.delete(key);
  }
}

/** An accepted reading of white at point n, from 1. */
export function whiteEntry(n: number, value: number, sheet: string, part: Partial<Entry> = {}): Entry {
  const [row, column] = [Math.floor((n - 1) / 3), (n - 1) % 3];
  return {
    version: ENTRY_VERSION,
    id: `session-${n}`,
    run: 'run00001',
    sheet,
    at: 1_000 + n,
    n,
    what: 'reading',
    words: `white, point ${n}: ${value} × 1`,
    step: `WhiteReadings/${row}/${column}`,
    writes: [{ name: 'WhiteReadings', row, column, value, before: null }],
    ...part,
  };
}
