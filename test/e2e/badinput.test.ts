import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { goTo, openWorkbench, type Workbench } from './browser';
import { namedValue, placeOf, sheetNames, valueAt } from './cells';
import { build, fillForm } from './pane';
import { AMBIENT, EXPECTED, FIELDS, fillFields, typeNamed } from './readings';

/* Bad input as it reaches the pane through a real spreadsheet; each test goes on where the one before it ended. */
let workbench: Workbench;
let pane: Frame;
let sheet: string;
let first: string;
let corner: string;

beforeAll(async () => {
  workbench = await openWorkbench({ pane: 320 });
  ({ pane } = workbench);
  await fillForm(pane, { projector: 'Millbrook branch (invented)', width: '1,6' });
});
afterAll(() => workbench.close());

const white = () => pane.locator('.Progress_fields > li', { hasText: /^white \d/ }).textContent();
const said = () => workbench.page.locator('#notice').textContent();
async function enter(address: string, text: string): Promise<void> {
  await goTo(workbench.page, address);
  await workbench.page.keyboard.type(text);
  await workbench.page.keyboard.press('Enter');
}

test('a decimal comma in the form is understood, and the sheet has the number', async () => {
  sheet = await build(pane);
  // 1.6 m × 0.9 m
  expect(await namedValue(pane, sheet, 'ImageArea')).toBeCloseTo(1.44, 10);
  [first, corner] = (await placeOf(pane, sheet, 'WhiteReadings')).split(':') as [string, string];
});

test.each([
  ['text', 'bright'],
  ['a number with its unit', '248 lx'],
  ['a negative number', '-5'],
  ['an absurd number', '300000'],
])('%s typed into a reading is refused with what is wanted, and nothing is written', async (_what, text) => {
  await enter(first, text);
  await expect.poll(said).toMatch(/Not a reading: .*0 to 200 000/);
  expect(await valueAt(pane, sheet, first)).toBe('');
  await workbench.page.getByText('Dismiss').click();
});

test('a negative number pasted in is not stopped, as in Excel, but no result is made of it', async () => {
  // Office Add-ins documentation, "Add data validation to Excel ranges": validation is not checked on pasting.
  const { page } = workbench;
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.evaluate(() => navigator.clipboard.writeText('-5'));
  await goTo(page, first);
  await page.keyboard.press('Control+V');
  await expect.poll(() => valueAt(pane, sheet, first)).toBe(-5);
  await expect.poll(white).toMatch(/top left \(point 1\).*-5/);
  await page.keyboard.press('Delete');
  await expect.poll(() => valueAt(pane, sheet, first)).toBe('');
});

test('an ambient light above a reading is an error that names the point', async () => {
  const { page } = workbench;
  await fillFields(pane, sheet, { White: FIELDS.White });
  await typeNamed(page, pane, sheet, 'AmbientReadings', '850');
  await expect.poll(() => namedValue(pane, sheet, 'WhiteLightOutput')).toBe('#VALUE!');
  // 812 lx at the top left is the first of those below 850 lx.
  await expect.poll(() => pane.locator('main').textContent()).toMatch(/ambient.*top left/is);
  await typeNamed(page, pane, sheet, 'AmbientReadings', String(AMBIENT));
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput!, 8);
});

test('an error cell in the readings is named; clearing it brings the missing point', async () => {
  await pane.evaluate(
    ([name, at]) =>
      Excel.run(async (context) => {
        context.workbook.worksheets.getItem(name!).getRange(at!).formulas = [['=1/0']];
        await context.sync();
      }),
    [sheet, corner],
  );
  await expect.poll(white).toMatch(/bottom right \(point 9\).*#DIV\/0!/);
  await goTo(workbench.page, corner);
  await workbench.page.keyboard.press('Delete');
  await expect.poll(white).toContain('missing: bottom right (point 9)');
  await enter(corner, '815');
  await expect.poll(white).toContain('9 of 9');
});

test('a renamed sheet is followed', async () => {
  await pane.evaluate(
    (name) =>
      Excel.run(async (context) => {
        context.workbook.worksheets.getItem(name).name = 'Millbrook, Tuesday';
        await context.sync();
      }),
    sheet,
  );
  sheet = 'Millbrook, Tuesday';
  await enter(corner, '816');
  await expect.poll(() => pane.locator('#sheet-title').textContent()).toBe('Millbrook, Tuesday');
  // 1 lx more at one point: 0.16 m² × 1 lx.
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput! + 0.16, 8);
});

test('a copied sheet is a run of its own', async () => {
  await pane.evaluate(
    (name) =>
      Excel.run(async (context) => {
        context.workbook.worksheets.getItem(name).copy('End').activate();
        await context.sync();
      }),
    sheet,
  );
  const copy = (await sheetNames(pane)).at(-1)!;
  await expect.poll(() => pane.locator('#sheet-title').textContent()).toBe(copy);
  await enter(corner, '817');
  await expect
    .poll(() => namedValue(pane, copy, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput! + 0.32, 8);
  expect(await namedValue(pane, sheet, 'WhiteLightOutput')).toBeCloseTo(EXPECTED.WhiteLightOutput! + 0.16, 8);
});

test('a half-deleted sheet gives no figure for what is gone; the others stand', async () => {
  const copy = (await sheetNames(pane)).at(-1)!;
  // The rows of the grid, and the one of the remarks below it.
  const [from, to] = [first, corner].map((at) => Number(/\d+/.exec(at)![0]));
  await pane.evaluate(
    ([name, rows]) =>
      Excel.run(async (context) => {
        const damaged = context.workbook.worksheets.getItem(name!);
        damaged.protection.unprotect();
        damaged.names.getItem('WhiteReadings').delete();
        damaged.getRange(rows!).clear();
        await context.sync();
      }),
    [copy, `A${from}:L${to! + 1}`],
  );
  await expect.poll(() => namedValue(pane, copy, 'WhiteLightOutput')).toBe('0 of 9');
  await expect
    .poll(() =>
      pane
        .locator('.figures_figure', { hasText: 'White light output' })
        .locator('.figures_big')
        .textContent(),
    )
    .toMatch(/^\u2013/);
  expect(await namedValue(pane, sheet, 'WhiteLightOutput')).toBeCloseTo(EXPECTED.WhiteLightOutput! + 0.16, 8);
});

test('a deleted sheet leaves the pane with the other run', async () => {
  const copy = (await sheetNames(pane)).at(-1)!;
  await pane.evaluate(
    (name) =>
      Excel.run(async (context) => {
        context.workbook.worksheets.getItem(name).delete();
        await context.sync();
      }),
    copy,
  );
  await expect.poll(() => pane.locator('main').textContent()).toContain('Millbrook, Tuesday');
  await expect.poll(() => pane.locator('main').textContent()).not.toContain(copy);
  expect(workbench.errors).toEqual([]);
});
