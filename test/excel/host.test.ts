import { beforeEach, describe, expect, it } from 'vitest';
import { type Host, HostError } from '../../src/excel/host';
import { batchPlan } from '../../src/sheets/batch';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { batchSetup } from '../sheets/batchcases';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

let host: Host;
let test: TestHost;
beforeEach(async () => {
  ({ host, test } = await createPaneHost());
});

const plan = (projector = 'Unit 7 (invented)', id = 'u7') =>
  runPlan({ ...defaultRunSetup(), projector, colour: 'none', black: false }, id);

async function trouble(work: Promise<unknown>): Promise<HostError> {
  try {
    await work;
  } catch (reason) {
    expect(reason).toBeInstanceOf(HostError);
    return reason as HostError;
  }
  throw new Error('Nothing went wrong');
}

/** Sends straight to the sheet what a person or another program might do there. */
const directly = (work: (context: Excel.RequestContext) => void) =>
  test.run(async (context) => {
    work(context);
    await context.sync();
  });

describe('building', () => {
  it('gives a taken name a number and leaves the first sheet as it was', async () => {
    const first = await host.build(plan());
    await host.write(first.sheet, 'WhiteReadings', [
      [1, 2, 3],
      [4, 5, 6],
      [7, 8, 9],
    ]);
    const second = await host.build(plan('Unit 7 (invented)', 'u8'));
    expect([first.sheet, second.sheet]).toEqual(['Run Unit 7 (invented)', 'Run Unit 7 (invented) 2']);
    expect((await host.read(first.sheet)).values.WhiteReadings!.values[2]![2]).toBe(9);
    expect((await host.read(second.sheet)).values.WhiteReadings!.values[2]![2]).toBeNull();
  });

  it('takes three round trips, and one for what may fail without taking the sheet with it', async () => {
    let messages = 0;
    const send = test.workbench.bridge as unknown as { sendMessageToHost(text: string): void };
    const original = send.sendMessageToHost.bind(send);
    send.sendMessageToHost = (text) => {
      messages++;
      original(text);
    };
    await host.build(plan());
    expect(messages).toBeGreaterThan(0);
    expect(messages).toBeLessThanOrEqual(4);
  });

  it('keeps a projector called "=1+1" a name', async () => {
    const { sheet } = await host.build(plan('=1+1'));
    expect((await host.read(sheet)).values.Projector!.values).toEqual([['=1+1']]);
  });

  it('finds its sheets again after a rename and on a copy', async () => {
    const { sheet } = await host.build(plan());
    await directly((context) => {
      const worksheet = context.workbook.worksheets.getItem(sheet);
      worksheet.name = 'Renamed';
      worksheet.copy('End');
    });
    const { sheets } = await host.survey();
    expect(sheets.map(({ kind, id }) => [kind, id])).toEqual([
      ['run', 'u7'],
      ['run', 'u7'],
    ]);
    expect((await host.read('Renamed')).values.Projector!.values).toEqual([['Unit 7 (invented)']]);
  });
});

describe('refusals, in words', () => {
  it('a grid of the wrong shape names both shapes and writes nothing', async () => {
    const { sheet } = await host.build(plan());
    const { message } = await trouble(host.write(sheet, 'WhiteReadings', [[1, 2, 3, 4]]));
    expect(message).toBe('WhiteReadings on "Run Unit 7 (invented)" takes 3 × 3 values; 1 × 4 came.');
  });

  it('a result cell is protected', async () => {
    const { sheet } = await host.build(plan());
    expect((await trouble(host.write(sheet, 'WhiteLightOutput', [[2300]]))).trouble).toBe('protected');
  });

  it('a deleted sheet is missing', async () => {
    const { sheet } = await host.build(plan());
    await directly((context) => context.workbook.worksheets.getItem(sheet).delete());
    expect((await trouble(host.read(sheet))).trouble).toBe('missing');
  });

  it('a sheet that is not ours says so', async () => {
    await directly(
      (context) => (context.workbook.worksheets.add('Shopping').getRange('A1').values = [['milk']] as never),
    );
    const { message } = await trouble(host.read('Shopping'));
    expect(message).toBe('"Shopping" is not one of our sheets, or its hidden mark was deleted.');
  });
});

describe('a sheet that is not finished', () => {
  it('goes again also when somebody types into a cell just then', async () => {
    const stopped = { progress: () => undefined, signal: stoppedWhileTyping() };
    const failed = trouble(host.build(batchPlan(batchSetup({ lines: 30 }), 'long1'), stopped));
    await new Promise((resolve) => setTimeout(resolve, 300));
    test.engine.isEditing = false;
    expect((await failed).trouble).toBe('stopped');
    expect((await host.survey()).sheets).toEqual([]);
    expect(test.engine.sheets().map(({ name }) => name)).toEqual(['Sheet1']);
  });
});

/** A signal that is set while a person opens a cell. */
function stoppedWhileTyping(): AbortSignal {
  const { signal } = new AbortController();
  Object.defineProperty(signal, 'aborted', {
    get: () => {
      test.engine.isEditing = true;
      return true;
    },
  });
  return signal;
}

describe('reading and refreshing', () => {
  it('tells errors from the texts that look like them', async () => {
    const { sheet } = await host.build(plan());
    await directly((context) => {
      const worksheet = context.workbook.worksheets.getItem(sheet);
      worksheet.names.getItem('Place').getRange().values = [["'#N/A"]];
      worksheet.names.getItem('ImageLength').getRange().formulas = [['=1/0']];
    });
    await test.engine.calculation.settled();
    const { values } = await host.read(sheet);
    expect(values.Place!.values).toEqual([['#N/A']]);
    expect(values.ImageLength!.values[0]![0]).toMatchObject({ error: '#DIV/0!' });
  });

  it('refreshing enters every formula again, keeps text that begins with "=", and protects the sheet again', async () => {
    const { sheet } = await host.build(plan('=1+1'));
    const { formulas } = await host.refresh(sheet);
    expect(formulas).toBe(Object.values(plan('=1+1').cells).filter(({ formula }) => formula).length);
    expect((await host.read(sheet)).values.Projector!.values).toEqual([['=1+1']]);
    expect((await trouble(host.write(sheet, 'WhiteLightOutput', [[1]]))).trouble).toBe('protected');
  });

  it('watching calls back after a change, and no more once it is stopped', async () => {
    const { sheet } = await host.build(plan());
    let calls = 0;
    let wake = () => {};
    const stop = await host.watch(() => {
      calls++;
      wake();
    });
    const called = new Promise<void>((resolve) => {
      wake = resolve;
    });
    await host.write(sheet, 'AmbientReadings', [[3]]);
    await called;
    stop();
    await test.engine.calculation.settled();
    const before = calls;
    await host.write(sheet, 'AmbientReadings', [[4]]);
    await test.engine.calculation.settled();
    expect(calls).toBe(before);
  });

  it('watching calls back now and then while changes never cease', async () => {
    await host.build(plan());
    let wake = () => {};
    const called = new Promise<void>((resolve) => {
      wake = resolve;
    });
    const stop = await host.watch(() => wake());
    // As sheets do that are linked to something that never rests.
    const sheet = test.engine.activeSheet.id;
    const restless = setInterval(
      () => test.engine.events.emit({ kind: 'calculated', sheet, address: 'A1' }),
      30,
    );
    await called;
    clearInterval(restless);
    stop();
  });
});
