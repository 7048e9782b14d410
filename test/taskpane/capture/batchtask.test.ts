import { expect, it } from 'vitest';
import { batchPlan } from '../../../src/sheets/batch';
import { type BatchSetup, defaultBatchSetup } from '../../../src/sheets/batch/setup';
import { batchTask } from '../../../taskpane/capture/batchtask';
import { rangeLock } from '../../../taskpane/capture/range';
import type { Task } from '../../../taskpane/capture/task';
import { FakeHost } from '../fakehost';

/* Units and readings are invented. */
const UNITS = ['K-1', 'K-2', 'K-3'].map((serial) => ({ serial }));

async function opened(
  setup: Partial<BatchSetup> = {},
): Promise<{ host: FakeHost; task: () => Promise<Task> }> {
  const host = new FakeHost();
  const { sheet } = await host.build(
    batchPlan(
      { ...defaultBatchSetup(), title: 'rooms (invented)', units: UNITS, lines: 5, ...setup },
      'batch001',
    ),
  );
  return { host, task: () => batchTask(host, { sheet, id: 'batch001' }) };
}
const labels = ({ groups }: Task) => groups.map(({ label, steps }) => `${label}: ${steps.length}`);

it('asks for the ambient light once, and then for unit after unit in the order of the rows', async () => {
  const { task } = await opened({ readings: 'nine points white', ambient: 'once' });
  expect(labels(await task())).toEqual(['ambient: 1', 'K-1, white: 9', 'K-2, white: 9', 'K-3, white: 9']);
});

it('puts each reading into the cell of its unit, its field and its point', async () => {
  const { host, task } = await opened({ readings: 'nine points in each colour', ambient: 'none' });
  const { groups } = await task();
  const step = groups.find(({ label }) => label === 'K-2, green')!.steps[4]!;
  // White 0 to 8, red 9 to 17, green from 18: its centre is the fifth.
  expect(step.at).toEqual({ name: 'Readings', row: 1, column: 22 });
  await host.writeCells({ sheet: host.active, id: 'batch001' }, [{ ...step.at, value: 640 }]);
  const again = (await task()).groups.find(({ label }) => label === 'K-2, green')!.steps;
  expect(again.map(({ value }) => value)).toEqual([null, null, null, null, 640, null, null, null, null]);
});

it('lets white choose the range of a row, and holds the colours and the row’s ambient light to it', async () => {
  const { task } = await opened({ readings: 'centre in each colour', ambient: 'by row' });
  const { groups } = await task();
  expect(groups.slice(0, 5).map(({ label }) => label)).toEqual([
    'K-1, white',
    'K-1, red',
    'K-1, green',
    'K-1, blue',
    'K-1, ambient',
  ]);
  const lock = (i: number) => rangeLock(groups[i]!.steps[0]!, groups[i]!, false);
  expect(lock(0)).toBeUndefined();
  for (const i of [1, 2, 3, 4]) expect(lock(i)).toMatch(/^The sheet has one range factor for each unit/);
});

it('hands a long batch over in parts: the one in which the first unit is open', async () => {
  const many = Array.from({ length: 60 }, (_, i) => ({ serial: `K-${i + 1}` }));
  const { host, task } = await opened({
    readings: 'nine points in each colour',
    ambient: 'none',
    units: many,
    lines: 60,
  });
  // 36 readings a unit; 400 at once are 11 units.
  expect((await task()).groups).toHaveLength(11 * 4);
  host.put(
    host.active,
    'UnitState',
    many.map((_, i) => [i < 25 ? 'complete' : '0 of 36']),
  );
  expect((await task()).groups[0]!.label).toBe('K-23, white');
});
