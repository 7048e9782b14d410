import { afterAll, beforeAll, expect, test } from 'vitest';
import { openWorkbench, shot, type, type Workbench } from './browser';
import { valueAt } from './cells';

let workbench: Workbench;
beforeAll(async () => {
  workbench = await openWorkbench();
});
afterAll(() => workbench.close());

test('the pane shows its first step beside the spreadsheet', async () => {
  const { page, pane } = workbench;
  expect(await pane.locator('h1').textContent()).toBe('Light Output Workbook');
  expect(await page.locator('.about').textContent()).toContain('not Excel');
  await shot(page, 'start');
});

test('the real client library adds a sheet, and typing recalculates it', async () => {
  const { page, pane } = workbench;
  const before = await pane.evaluate(() =>
    Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.add('Typing');
      const range = sheet.getRange('B2:B3');
      range.formulas = [[5], ['=B2+1']];
      sheet.activate();
      await context.sync();
      range.load('values');
      await context.sync();
      return range.values;
    }),
  );
  expect(before).toEqual([[5], [6]]);
  await type(page, 'B2', '41');
  await expect.poll(() => valueAt(workbench.pane, 'Typing', 'B3')).toBe(42);
});

test('a custom function of the pane computes in a cell', async () => {
  const { page } = workbench;
  // A diffuse screen of gain 1 under 500 lx: 500/π cd/m² (Lambert's law; any photometry handbook).
  await type(page, 'D2', '=LIGHT.LUMINANCE(500,1)');
  await expect.poll(() => valueAt(workbench.pane, 'Typing', 'D2')).toBeCloseTo(159.154943, 6);
});

test('what a function spills into formatted cells is read in full, not as it is drawn', async () => {
  const { pane } = workbench;
  await pane.evaluate(() =>
    Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Typing');
      sheet.getRange('G2:G5').numberFormat = [['0.0'], ['0.0'], ['0.0'], ['0.0']];
      sheet.getRange('F2').formulas = [['=LIGHT.IMAGESIZE("height",1.25,"1600x1200")']];
      await context.sync();
    }),
  );
  // 4 : 3 and 1.25 m high: 5/3 m wide, 25/12 m across, 25/12 m², by hand.
  await expect.poll(() => valueAt(pane, 'Typing', 'G3')).toBe(1.25);
  expect(await valueAt(pane, 'Typing', 'G2')).toBeCloseTo(5 / 3, 9);
  expect(await valueAt(pane, 'Typing', 'G5')).toBeCloseTo(25 / 12, 9);
});

test('a missing sheet and a taken name are refused as Excel refuses them', async () => {
  const refusals = await workbench.pane.evaluate(async () => {
    const codeOf = (work: (context: Excel.RequestContext) => Promise<unknown>) =>
      Excel.run(work).then(
        () => 'done',
        (error: OfficeExtension.Error) => error.code,
      );
    return {
      missing: await codeOf((context) => {
        context.workbook.worksheets.getItem('No such sheet').activate();
        return context.sync();
      }),
      taken: await codeOf((context) => {
        context.workbook.worksheets.add('Typing');
        return context.sync();
      }),
    };
  });
  expect(refusals).toEqual({ missing: 'ItemNotFound', taken: 'ItemAlreadyExists' });
});

test('nothing is asked of another machine, and no error was reported', () => {
  const { requests, errors } = workbench;
  expect(requests.length).toBeGreaterThan(5);
  expect(requests.filter((address) => new URL(address).hostname !== '127.0.0.1')).toEqual([]);
  expect(errors).toEqual([]);
});
