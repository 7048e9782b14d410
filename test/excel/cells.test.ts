import { beforeEach, expect, it } from 'vitest';
import type { CellPlace } from '../../src/excel/host';
import { type Host, HostError } from '../../src/excel/host';
import type { CellName } from '../../src/sheets/names/all';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/* Single cells through the real client library. */
const SMALL = { ...defaultRunSetup(), colour: 'none', black: false } as const;
let host: Host;
let test: TestHost;
let sheet: string;
beforeEach(async () => {
  ({ host, test } = await createPaneHost());
  ({ sheet } = await host.build(runPlan({ ...SMALL, projector: 'Unit 7 (invented)', mode: 'Bright' }, 'u7')));
});

const CENTRE: CellPlace = { name: 'WhiteReadings', row: 1, column: 1 };
const FACTOR: CellPlace = { name: 'WhiteRange', row: 1, column: 1 };

/** Messages the client library sends during some work. */
async function roundTrips(work: () => Promise<unknown>): Promise<number> {
  let messages = 0;
  const bridge = test.workbench.bridge as unknown as { sendMessageToHost(text: string): void };
  const send = bridge.sendMessageToHost.bind(bridge);
  bridge.sendMessageToHost = (text) => {
    // The client library's own letting go of tracked ranges comes after the answer.
    if (!text.includes('_RemoveReference')) messages++;
    send(text);
  };
  await work();
  bridge.sendMessageToHost = send;
  return messages;
}

it('writes a reading and its range factor in one round trip and tells what stood there', async () => {
  const trips = await roundTrips(async () => {
    const before = await host.writeCells(sheet, [
      { ...CENTRE, value: 124.5 },
      { ...FACTOR, value: 10 },
    ]);
    expect(before).toEqual([null, 1]);
  });
  expect(trips).toBe(1);
  const { values } = await host.read(sheet);
  expect(values.WhiteReadings!.values).toEqual([
    [null, null, null],
    [null, 124.5, null],
    [null, null, null],
  ]);
  expect(values.WhiteRange!.values[1]).toEqual([1, 10, 1]);
});

it('gives the value before, not the one just written, also when written twice in one batch', async () => {
  await host.writeCells(sheet, [{ ...CENTRE, value: 1 }]);
  expect(await host.writeCells(sheet, [{ ...CENTRE, value: 2 }])).toEqual([1]);
  expect(await host.readCells(sheet, [CENTRE, FACTOR])).toEqual([2, 1]);
});

it('takes the word for over range, and null empties the cell', async () => {
  await host.writeCells(sheet, [{ ...CENTRE, value: 'over' }]);
  expect(await host.writeCells(sheet, [{ ...CENTRE, value: null }])).toEqual(['over']);
  expect(await host.readCells(sheet, [CENTRE])).toEqual([null]);
});

it('writes into the wide notes cell, text that looks like a formula included', async () => {
  const note = '=1+1 is no formula here\nsecond line';
  await host.writeCells(sheet, [{ name: 'CaptureNotes', row: 0, column: 0, value: note }]);
  expect(await host.readCells(sheet, [{ name: 'CaptureNotes', row: 0, column: 0 }])).toEqual([note]);
});

it('writes nothing at all when one of the names is missing', async () => {
  const refused = host.writeCells(sheet, [
    { ...CENTRE, value: 5 },
    { name: 'NoSuchName' as CellName, row: 0, column: 0, value: 5 },
  ]);
  await expect(refused).rejects.toMatchObject({ trouble: 'missing' });
  await expect(refused).rejects.toBeInstanceOf(HostError);
  expect(await host.readCells(sheet, [CENTRE])).toEqual([null]);
});

it('leaves locked cells alone', async () => {
  const locked = host.writeCells(sheet, [{ name: 'ImageArea', row: 0, column: 0, value: 5 }]);
  await expect(locked).rejects.toMatchObject({ trouble: 'protected' });
});

it('finds its sheet by the id: tabs that exchanged their names do not exchange their readings', async () => {
  const a = { sheet, id: 'u7' };
  const { sheet: other } = await host.build(
    runPlan({ ...SMALL, projector: 'Unit 8 (invented)', mode: 'Bright' }, 'u8'),
  );
  // The first write looks where the sheet is, the ones after that take one round trip.
  await host.writeCells(a, [{ ...CENTRE, value: 1 }]);
  await test.run(async (context) => {
    const { worksheets } = context.workbook;
    const [first, second] = [worksheets.getItem(sheet), worksheets.getItem(other)];
    first.name = 'for a moment';
    await context.sync();
    second.name = sheet;
    await context.sync();
    first.name = other;
    await context.sync();
  });
  const trips = await roundTrips(() => host.writeCells(a, [{ ...CENTRE, value: 2 }]));
  expect(trips).toBe(1);
  expect(await host.readCells(other, [CENTRE])).toEqual([2]);
  expect(await host.readCells(sheet, [CENTRE])).toEqual([null]);
});

it('refuses a sheet that bears another id than the one meant, and says so', async () => {
  await expect(host.writeCells({ sheet, id: 'u9' }, [{ ...CENTRE, value: 1 }])).rejects.toMatchObject({
    trouble: 'missing',
    message: `“${sheet}” is another sheet by now than the one that was meant.`,
  });
  expect(await host.readCells(sheet, [CENTRE])).toEqual([null]);
});

it('looks again once the sheet it knew is gone', async () => {
  const place = { sheet, id: 'u7' };
  await host.writeCells(place, [{ ...CENTRE, value: 1 }]);
  await test.run(async (context) => {
    context.workbook.worksheets.getItem(sheet).copy('End');
    await context.sync();
    context.workbook.worksheets.getItem(sheet).delete();
    await context.sync();
  });
  const missing = { trouble: 'missing' };
  await expect(host.writeCells(place, [{ ...CENTRE, value: 2 }])).rejects.toMatchObject(missing);
  await expect(host.writeCells(place, [{ ...CENTRE, value: 2 }])).rejects.toMatchObject(missing);
  const copy = (await host.survey()).sheets[0]!;
  await host.writeCells(copy, [{ ...CENTRE, value: 3 }]);
  expect(await host.readCells(copy.sheet, [CENTRE])).toEqual([3]);
});
