import { describe, expect, it } from 'vitest';
import { ageingPlan } from '../../src/sheets/ageing';
import { defaultAgeing } from '../../src/sheets/ageing/setup';
import { logPlan } from '../../src/sheets/log';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import type { Batch } from '../../src/workbench/bridge/wire';
import { refused, standBetween } from '../workbench/between';
import { createPaneHost } from './host';

/*
 * Page set-up depends on printers (github.com/OfficeDev/office-js, issue 1860), charts and notes on the version, the
 * view on the window in front: none of them may take a sheet with it. The workbench has no charts, so a host that
 * takes it for Excel is refused them by its own API.
 */

const PLAN = runPlan(defaultRunSetup(), 'a1');
const AGEING = ageingPlan({ ...defaultAgeing('Unit 1 (invented)'), needed: 2000 }, 'a2');
/** The batch of a build after look, beginning and contents. */
const EXTRAS = 4;

/** Whether a batch holds a call of this method. */
const calls = (batch: Batch, method: string) =>
  Object.values(batch.ObjectPaths ?? {}).some(({ Name }) => Name === method) ||
  batch.Actions.some(({ Name }) => Name === method);

describe('a sheet stands', () => {
  it('without page set-up where the program refuses that, protected, and it is told', async () => {
    const { host, test } = await createPaneHost();
    standBetween(test, {
      before: (_, batch) => (calls(batch, 'SetPrintArea') ? refused('GeneralException') : undefined),
    });
    const built = await host.build(PLAN);
    expect(built.lacking?.map(({ part }) => part)).toEqual(['page']);
    expect(built.lacking![0]!.detail).toMatch(/^GeneralException/);
    const sheet = test.engine.sheets().find(({ name }) => name === built.sheet)!;
    expect(sheet.protection).toBeDefined();
    expect(Object.keys((await host.read(built.sheet)).values)).toContain('WhiteReadings');
  });

  it('without charts where the program has none, and those alone are told', async () => {
    const { host, test } = await createPaneHost('16.0.0.1');
    const built = await host.build(AGEING);
    expect(built.lacking?.map(({ part }) => part)).toEqual(['charts']);
    expect(built.lacking![0]!.detail).toMatch(/ApiNotAvailable/);
    expect(test.engine.sheets().map(({ name }) => name)).toContain(built.sheet);
  });

  it('with everything where only the first answer was lost', async () => {
    const { host, test } = await createPaneHost();
    standBetween(test, {
      after: (count, result) => (count === EXTRAS ? refused('ServiceNotAvailable') : result),
    });
    expect(await host.build(PLAN)).toEqual({ sheet: 'Run' });
  });

  it('unprotected where even that is refused, and it is told', async () => {
    const { host, test } = await createPaneHost();
    standBetween(test, {
      before: (_, batch) => (calls(batch, 'Protect') ? refused('GeneralException') : undefined),
    });
    const built = await host.build(PLAN);
    expect(built.lacking?.map(({ part }) => part)).toEqual(['protection']);
  });
});

it('lines of the log stand though the program refuses its print area', async () => {
  const { host, test } = await createPaneHost();
  standBetween(test, {
    before: (_, batch) => (calls(batch, 'SetPrintArea') ? refused('GeneralException') : undefined),
  });
  const line = {
    when: '2026-03-02T10:00:00Z',
    who: 'A. Person (invented)',
    what: 'built',
    sheet: '',
    detail: 'first',
    program: 'test',
  } as const;
  await host.appendLog([line], 'l1');
  await host.appendLog([{ ...line, detail: 'second' }], 'l2');
  const log = test.engine.sheets().find(({ name }) => name === logPlan('l1').title)!;
  const texts = await test.run(async (context) => {
    const used = context.workbook.worksheets.getItem(log.name).getUsedRange().load('values');
    await context.sync();
    return used.values.flat();
  });
  expect(texts).toEqual(expect.arrayContaining(['first', 'second']));
});

it('hides the mark in a message after the one that adds it, and holds no calculation while charts are made', async () => {
  const { host, test } = await createPaneHost('16.0.0.1');
  const batches: Batch[] = [];
  standBetween(test, {
    before: (_, batch) => {
      batches.push(batch);
      return undefined;
    },
  });
  const { sheet } = await host.build(AGEING);
  const mark = test.engine.sheets().find(({ name }) => name === sheet)!;
  expect(test.engine.names.of(mark.id).find(({ name }) => name === 'LightSheet')!.hidden).toBe(true);
  const held = (batch: Batch) => calls(batch, 'SuspendApiCalculationUntilNextSync');
  expect(batches.filter(held)).not.toEqual([]);
  expect(batches.filter((batch) => held(batch) && calls(batch, 'Charts'))).toEqual([]);
  expect(batches.some((batch) => calls(batch, 'Charts'))).toBe(true);
});

it('says plainly when a protection without a password cannot be lifted', async () => {
  const { host, test } = await createPaneHost();
  const { sheet } = await host.build(PLAN);
  standBetween(test, {
    before: (_, batch) =>
      calls(batch, 'Unprotect')
        ? {
            ...refused('AccessDenied'),
            Error: { ...refused('AccessDenied').Error!, Location: 'WorksheetProtection.unprotect' },
          }
        : undefined,
  });
  await expect(host.refresh(sheet)).rejects.toMatchObject({
    trouble: 'protected',
    message: 'The program did not let the pane lift the protection of the sheet. Nothing was written.',
    remedy: expect.stringMatching(/under Review, Unprotect Sheet/),
  });
});
