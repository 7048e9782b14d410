import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { openWorkbench, type, type Workbench } from './browser';
import { namedValue, placeOf, valueAt } from './cells';
import { build, fillForm } from './pane';
import { EXPECTED, fillRun } from './readings';

/*
 * What is late in the real program: Microsoft's host script, which office.js loads by itself; our own files; and the
 * results of functions, which the client library hands over in waves. Nothing is waited for by the clock: a file is held
 * back until something else has happened. Rooms and readings are invented.
 */
let workbench: Workbench | undefined;
afterEach(async () => {
  await workbench?.close();
  workbench = undefined;
});

/** Holds files back whose address fits, until they are let go. */
function holder(address: RegExp) {
  let letGo: () => void = () => undefined;
  const free = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  return {
    letGo: () => letGo(),
    before: async (context: BrowserContext) => {
      await context.route(address, async (route) => {
        await free;
        await route.continue();
      });
    },
  };
}

/** The pane's frame while it is loading. */
async function loading(page: Page): Promise<Frame> {
  const frame = await (await page.waitForSelector('#pane')).contentFrame();
  if (!frame) throw new Error('The pane has no frame');
  return frame;
}

/** A missing reading, a wrong one, and two that can be used: 500/π cd/m² (Lambert's law) and 2 m × 1 m. */
const FORMULAS = {
  A1: '=LIGHT.OUTPUT(F1:H3,1.44)',
  A2: '=LIGHT.LUMINANCE("x",1)',
  A3: '=LIGHT.LUMINANCE(500,1)',
} as const;
async function typeFormulas(page: Page): Promise<void> {
  for (const [address, formula] of Object.entries(FORMULAS)) await type(page, address, formula);
}
async function expectResults(pane: Frame): Promise<void> {
  await expect.poll(() => valueAt(pane, 'Sheet1', 'A3')).toBeCloseTo(500 / Math.PI, 6);
  await expect.poll(() => valueAt(pane, 'Sheet1', 'A1')).toBe('#N/A');
  await expect.poll(() => valueAt(pane, 'Sheet1', 'A2')).toBe('#VALUE!');
}

test('the host script comes after all of ours: missing readings are still #N/A, and nothing is lost', async () => {
  const script = holder(/\/office\/excel-web-16\.00\.js/);
  workbench = await openWorkbench({
    before: script.before,
    meanwhile: async (page) => {
      const frame = await loading(page);
      // Every function is named, and there is no error class yet.
      await frame.waitForFunction(
        () =>
          typeof CustomFunctions !== 'undefined' &&
          Object.keys(
            (CustomFunctions as unknown as { _association: { mappings: object } })._association.mappings,
          ).length > 0,
      );
      expect(await frame.evaluate(() => typeof CustomFunctions.Error)).toBe('undefined');
      script.letGo();
    },
  });
  await workbench.pane.evaluate(
    (formulas) =>
      Excel.run(async (context) => {
        const sheet = context.workbook.worksheets.getItem('Sheet1');
        for (const [address, formula] of Object.entries(formulas))
          sheet.getRange(address).formulas = [[formula]];
        await context.sync();
      }),
    FORMULAS,
  );
  await expectResults(workbench.pane);
  expect(workbench.errors).toEqual([]);
});

test('functions called before ours are there are answered when they are, not with an error', async () => {
  const functions = holder(/\/assets\/functions-[^/]*\.js/);
  workbench = await openWorkbench({
    before: functions.before,
    meanwhile: async (page) => {
      const frame = await loading(page);
      // Microsoft's side is ready, ours is not.
      await frame.waitForFunction(() => typeof CustomFunctions?.Error === 'function');
      await typeFormulas(page);
      functions.letGo();
    },
  });
  await expectResults(workbench.pane);
  expect(workbench.errors).toEqual([]);
});

test('results in waves: cells are busy, the pane says so, shows no error, and then has the figures', async () => {
  workbench = await openWorkbench({ longWaves: true });
  const { pane } = workbench;
  await fillForm(pane, { projector: 'Weir branch (invented)', width: '1.6' });
  const sheet = await build(pane);
  // Every state of the pane until the figures are there.
  await pane.evaluate(() => {
    const seen = new Set<string>();
    const look = () => {
      for (const part of document.querySelectorAll('#pane :is(p, h3, li, dd, td)'))
        seen.add(part.textContent);
    };
    new MutationObserver(look).observe(document.body, {
      subtree: true,
      childList: true,
      characterData: true,
    });
    Object.assign(window, { seen });
  });
  await fillRun(pane, sheet);
  const places = await Promise.all(
    ['WhiteReadings', 'WhiteLightOutput'].map((name) => placeOf(pane, sheet, name)),
  );
  // Typed and looked at in one go: the next wave is half a second away, a slow machine's next question may be further.
  const justTyped = await pane.evaluate(
    ([title, readings, result]) =>
      Excel.run(async (context) => {
        const worksheet = context.workbook.worksheets.getItem(title!);
        const first = worksheet.getRange(readings!).getCell(0, 0);
        first.load('values');
        await context.sync();
        const was = first.values;
        first.values = [[Number(was[0]![0]) + 1]];
        await context.sync();
        const cell = worksheet.getRange(result!);
        cell.load('values');
        await context.sync();
        const [[shown]] = cell.values as [[unknown]];
        first.values = was;
        await context.sync();
        return shown;
      }),
    [sheet, ...places],
  );
  expect(justTyped).toBe('#BUSY!');
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput!, 8);
  await expect.poll(() => pane.locator('#progress-title').textContent()).toBe('36 of 36 readings');
  await expect.poll(() => pane.locator('.look_card', { hasText: 'Results' }).textContent()).toMatch(/agree/);
  const seen = await pane.evaluate(() => [...(window as unknown as { seen: Set<string> }).seen]);
  expect(seen).toContain('The spreadsheet is still calculating.');
  expect(seen.filter((line) => /#BUSY!|#GETTING_DATA|differ/.test(line))).toEqual([]);
  expect(workbench.errors).toEqual([]);
});
