import { afterAll, beforeAll, expect, test } from 'vitest';
import { EMPTY_SHEET } from '../../src/sheets/book';
import { writeXlsx } from '../../src/xlsx';
import { goTo, NAME_BOX, openWorkbench, readyPane, shot, type, type Workbench } from './browser';
import { valueAt } from './cells';

/* What a person sees of the sheet beside the cells themselves: formulas, names, prompts, the cell in view. */
let workbench: Workbench;
const box = () => workbench.page.locator(NAME_BOX).inputValue();
const hint = () => workbench.page.locator('#hint').textContent();

beforeAll(async () => {
  workbench = await openWorkbench();
  await workbench.pane.evaluate(() =>
    Excel.run(async (context) => {
      for (const title of ['Room 1, north', 'Room 2, south']) {
        const sheet = context.workbook.worksheets.add(title);
        sheet.names.add('WhiteReadings', sheet.getRange('B2:D4'));
        sheet.names.add('Total', sheet.getRange('F2'));
        sheet.getRange('F2').formulas = [['=SUM(WhiteReadings)']];
        sheet.getRange('B2:D4').dataValidation.prompt = {
          showPrompt: true,
          title: 'Illuminance',
          message: 'The number on the display',
        };
        sheet.activate();
      }
      await context.sync();
    }),
  );
});
afterAll(() => workbench.close());

test('the cell editor and the formula bar show a formula as it was written', async () => {
  const { page } = workbench;
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await goTo(page, 'F2');
  await shot(page, 'formula');
  // Both are drawn, not written, so what they show is copied out.
  await page.keyboard.press('F2');
  await page.keyboard.press('Control+A');
  await page.keyboard.press('Control+C');
  await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toBe('=SUM(WhiteReadings)');
  await page.keyboard.press('Escape');
});

test('a formula that a person opens and leaves as it is stays the same', async () => {
  const { page, pane } = workbench;
  await page.keyboard.press('F2');
  await page.keyboard.press('Enter');
  await type(page, 'B2', '248');
  await expect.poll(() => valueAt(pane, 'Room 2, south', 'F2')).toBe(248);
  expect(
    await pane.evaluate(() =>
      Excel.run(async (context) => {
        const cell = context.workbook.worksheets.getItem('Room 2, south').getRange('F2').load('formulas');
        await context.sync();
        return cell.formulas;
      }),
    ),
  ).toEqual([['=SUM(WhiteReadings)']]);
});

test('the name box shows a name as it was written, and goes to names of the sheet in front', async () => {
  const { page } = workbench;
  await goTo(page, 'F2');
  await expect.poll(box).toBe('Total');
  await goTo(page, 'A9');
  await expect.poll(box).toBe('A9');
  await goTo(page, 'whitereadings');
  await expect.poll(box).toBe('WhiteReadings');
  await expect.poll(hint).toBe('Illuminance: The number on the display');
  expect(await page.getByText('Room 2, south').count()).toBeGreaterThan(0);
});

test('the prompt of a cell is said below the sheet, and goes with the cell', async () => {
  const { page } = workbench;
  await goTo(page, 'C3');
  await expect.poll(hint).toBe('Illuminance: The number on the display');
  await goTo(page, 'A9');
  await expect.poll(hint).toBe('');
});

test('a cell that the add-in selects comes into view', async () => {
  const { page, pane } = workbench;
  await pane.evaluate(() =>
    Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Room 1, north');
      sheet.activate();
      sheet.getRange('B150').select();
      await context.sync();
    }),
  );
  await expect.poll(box).toBe('B150');
  // A person's click on the middle of the sheet now meets a row near it. Each click is in another column: two at one
  // place are a double click, which opens the cell.
  let column = 0;
  const rowClicked = async () => {
    const before = await box();
    const area = (await page.locator('#grid').boundingBox())!;
    await page.mouse.click(area.x + 250 + 90 * (column++ % 5), area.y + area.height / 2);
    await expect.poll(box).not.toBe(before);
    return Number(/\d+/.exec(await box())?.[0]);
  };
  await expect.poll(rowClicked).toBeGreaterThan(100);
});

test('a batch that may wait for a cell being edited waits, then applies; one that may not is refused', async () => {
  const { page, pane } = workbench;
  await goTo(page, 'H2');
  await page.keyboard.type('12');
  const refused = await pane.evaluate(() =>
    Excel.run(async (context) => {
      context.workbook.worksheets.getItem('Room 2, south').getRange('H1').values = [['at once']];
      await context.sync();
    }).then(
      () => 'done',
      (error: OfficeExtension.Error) => error.code,
    ),
  );
  expect(refused).toBe('InvalidOperationInCellEditMode');
  await pane.evaluate(() => {
    const state = { isDone: false };
    Object.assign(window, { waiting: state });
    void Excel.run({ delayForCellEdit: true }, async (context) => {
      context.workbook.worksheets.getItem('Room 2, south').getRange('H1').values = [['later']];
      await context.sync();
      state.isDone = true;
    });
  });
  const isDone = () =>
    pane.evaluate(() => (window as unknown as { waiting: { isDone: boolean } }).waiting.isDone);
  await page.keyboard.type('3');
  expect(await isDone()).toBe(false);
  await page.keyboard.press('Enter');
  await expect.poll(isDone).toBe(true);
  expect(await valueAt(pane, 'Room 2, south', 'H1')).toBe('later');
  expect(await valueAt(pane, 'Room 1, north', 'H2')).toBe(123);
});

test('what an opened file has and the workbench cannot take is said', async () => {
  const { page } = workbench;
  page.on('dialog', (dialog) => void dialog.accept());
  const file = await writeXlsx({
    sheets: [
      {
        ...EMPTY_SHEET,
        name: 'From elsewhere',
        cells: { A1: { value: 1 } },
        // A cell address is no name in Excel ("Names in formulas"); other programs write such files.
        names: [{ name: 'AB12', refersTo: "='From elsewhere'!$A$1" }],
        notes: [{ at: 'A1', text: 'A note from elsewhere' }],
      },
    ],
    names: [],
  });
  await Promise.all([
    page.waitForEvent('framenavigated'),
    page.setInputFiles('#file', {
      name: 'elsewhere.xlsx',
      mimeType: 'application/octet-stream',
      buffer: Buffer.from(file),
    }),
  ]);
  await expect
    .poll(() => page.locator('#notice').textContent())
    .toMatch(/elsewhere\.xlsx.*"AB12" was left out/);
  const pane = await readyPane(page);
  expect(await valueAt(pane, 'From elsewhere', 'A1')).toBe(1);
  await goTo(page, 'B2');
  await goTo(page, 'A1');
  await expect.poll(hint).toBe('A note from elsewhere');
});
