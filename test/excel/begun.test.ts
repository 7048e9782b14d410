import { beforeEach, describe, expect, it } from 'vitest';
import type { Host } from '../../src/excel/host';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { refused, standBetween } from '../workbench/between';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/* A build that fails takes away what it began, and never a sheet of anybody else, whatever its name is. */

let host: Host;
let test: TestHost;
beforeEach(async () => {
  ({ host, test } = await createPaneHost());
});

const PLAN = runPlan(
  { ...defaultRunSetup(), projector: 'Reading room 3 (invented)', colour: 'none', black: false },
  'a1',
);
const NAME = 'Run Reading room 3 (invented)';
/** Codes that Excel documents for a batch ("Error handling with the Excel JavaScript API"). */
const CODES = [
  'AccessDenied',
  'InvalidArgument',
  'ItemNotFound',
  'GeneralException',
  'ActivityLimitReached',
  'InvalidOperationInCellEditMode',
];
/** The batches of a build: look, begin, contents. */
const [BEGIN, CONTENTS] = [2, 3];

const sheets = () => test.engine.sheets().map(({ name }) => name);
const readingsOf = (name: string) =>
  test.run(async (context) => {
    const range = context.workbook.worksheets.getItem(name).getRange('A1:C1').load('values');
    await context.sync();
    return range.values;
  });
/** Another person's client on the same workbook: a sheet of the same name, with readings in it. */
async function colleague(): Promise<void> {
  const sheet = test.engine.addSheet(NAME);
  await test.run(async (context) => {
    context.workbook.worksheets.getItem(sheet.name).getRange('A1:C1').values = [[812, 905, 820]];
    await context.sync();
  });
}

describe('a build that fails', () => {
  it.each(CODES)(
    'leaves the sheet a colleague made of the same name, its readings in it: %s',
    async (code) => {
      let isIn = false;
      const leave = standBetween(test, {
        async before(count) {
          if (count !== BEGIN || isIn) return undefined;
          isIn = true;
          leave();
          await colleague();
          return refused(code);
        },
      });
      await expect(host.build(PLAN)).rejects.toMatchObject({ name: 'HostError' });
      expect(sheets()).toEqual(['Sheet1', NAME]);
      expect(await readingsOf(NAME)).toEqual([[812, 905, 820]]);
    },
  );

  it.each(CODES)('takes its own sheet away, and no other of that name: %s', async (code) => {
    const leave = standBetween(test, {
      async before(count) {
        if (count !== CONTENTS) return undefined;
        leave();
        // Its tab was given another name meanwhile, and a colleague took the one it had.
        test.engine.renameSheet(test.engine.sheets().at(-1)!, 'Renamed meanwhile');
        await colleague();
        return refused(code);
      },
    });
    await expect(host.build(PLAN)).rejects.toMatchObject({ name: 'HostError' });
    expect(sheets()).toEqual(['Sheet1', NAME]);
    expect(await readingsOf(NAME)).toEqual([[812, 905, 820]]);
  });

  it('finds its own sheet by its mark where the answer that told its id was lost', async () => {
    const leave = standBetween(test, {
      after(count, result) {
        if (count !== BEGIN) return result;
        leave();
        return refused('ServiceNotAvailable');
      },
    });
    await expect(host.build(PLAN)).rejects.toMatchObject({ trouble: 'busy' });
    expect(sheets()).toEqual(['Sheet1']);
  });

  it('leaves another sheet of the same plan that stood there before', async () => {
    await host.build(PLAN);
    const leave = standBetween(test, {
      before(count) {
        if (count !== CONTENTS) return undefined;
        leave();
        return refused('InvalidArgument');
      },
    });
    await expect(host.build(PLAN)).rejects.toMatchObject({ trouble: 'refused' });
    expect(sheets()).toEqual(['Sheet1', NAME]);
  });

  it('says so of an empty sheet without a mark, and leaves it: it may be somebody else’s', async () => {
    const leave = standBetween(test, {
      before(count) {
        if (count !== BEGIN) return undefined;
        leave();
        test.engine.addSheet(NAME);
        return refused('GeneralException');
      },
    });
    await expect(host.build(PLAN)).rejects.toMatchObject({
      message: `The sheet “${NAME}” was begun, could not be finished and could not be taken away.`,
      remedy: 'If it is nobody else’s, delete it by its tab; then build again.',
    });
    expect(sheets()).toEqual(['Sheet1', NAME]);
  });

  it('builds under a free name where a colleague took the first one', async () => {
    const leave = standBetween(test, {
      async before(count) {
        if (count !== BEGIN) return undefined;
        leave();
        await colleague();
        return undefined;
      },
    });
    const { sheet } = await host.build(PLAN);
    expect(sheet).not.toBe(NAME);
    expect(sheets()).toEqual(['Sheet1', NAME, sheet]);
    expect(await readingsOf(NAME)).toEqual([[812, 905, 820]]);
  });
});
