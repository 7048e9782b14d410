import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { goTo, openWorkbench, shot, type Workbench } from './browser';
import { valueAt } from './cells';

let workbench: Workbench;
const said = () => workbench.page.locator('#notice').textContent();

beforeAll(async () => {
  workbench = await openWorkbench();
  await workbench.pane.evaluate(() =>
    Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.add('Guarded');
      sheet.getRange('B2').values = [[1]];
      const open = sheet.getRange('C2:C4');
      open.format.protection.locked = false;
      open.dataValidation.rule = { decimal: { formula1: 0, formula2: 200_000, operator: 'Between' } };
      open.dataValidation.errorAlert = {
        showAlert: true,
        style: 'Stop',
        title: 'Illuminance',
        message: 'A number from 0 to 200 000',
      };
      sheet.protection.protect();
      sheet.activate();
      await context.sync();
    }),
  );
});
afterAll(() => workbench.close());
beforeEach(async () => {
  if (await workbench.page.locator('#notice').isVisible()) await workbench.page.getByText('Dismiss').click();
});

async function enter(address: string, text: string): Promise<void> {
  await goTo(workbench.page, address);
  await workbench.page.keyboard.type(text);
  await workbench.page.keyboard.press('Enter');
}

test('typing into a locked cell of a protected sheet is refused, and the page says so', async () => {
  await enter('B2', '99');
  await expect.poll(said).toContain('protected');
  await shot(workbench.page, 'refused');
  expect(await valueAt(workbench.pane, 'Guarded', 'B2')).toBe(1);
});

test('an unlocked cell takes a value its validation allows', async () => {
  await enter('C2', '248');
  await expect.poll(() => valueAt(workbench.pane, 'Guarded', 'C2')).toBe(248);
  expect(await workbench.page.locator('#notice').isVisible()).toBe(false);
});

test('a value that the validation stops is refused in the sheet’s own words', async () => {
  await enter('C3', '-5');
  await expect.poll(said).toContain('A number from 0 to 200 000');
  expect(await valueAt(workbench.pane, 'Guarded', 'C3')).toBe('');
  await enter('C3', '248');
  await expect.poll(() => valueAt(workbench.pane, 'Guarded', 'C3')).toBe(248);
  expect(await workbench.page.locator('#notice').isVisible()).toBe(false);
});
