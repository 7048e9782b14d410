import { afterAll, beforeAll, expect, test } from 'vitest';
import { openWorkbench, type Workbench } from './browser';

/* A sheet that goes while the engine still fits the heights of its rows. */
let workbench: Workbench;
beforeAll(async () => {
  workbench = await openWorkbench();
});
afterAll(() => workbench.close());

test('a sheet that goes at once leaves no work behind that fails', async () => {
  const { pane, page, errors } = workbench;
  for (let turn = 0; turn < 5; turn++) {
    await pane.evaluate(() =>
      Excel.run(async (context) => {
        const sheet = context.workbook.worksheets.add();
        const range = sheet.getRange('A1:D400');
        range.values = Array.from({ length: 400 }, (_, r) =>
          Array.from({ length: 4 }, (_, c) => `Reading room ${r} ${c}, second floor`),
        );
        range.format.wrapText = true;
        range.format.columnWidth = 40;
        sheet.activate();
        await context.sync();
        sheet.delete();
        await context.sync();
      }),
    );
    // The engine fits heights when the page is idle; this comes behind what it has asked for by then, and once more.
    await page.evaluate(
      () => new Promise<void>((done) => requestIdleCallback(() => requestIdleCallback(() => done()))),
    );
  }
  expect(errors).toEqual([]);
});
