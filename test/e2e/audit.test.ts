import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violations } from './axe';
import { goTo, NAME_BOX, openWorkbench, readyPane, resizePane, shot, type Workbench } from './browser';
import { namedValue, placeOf, sheetNames } from './cells';
import { build, fillForm, toPage } from './pane';
import { EXPECTED, fillRun } from './readings';
import { recalculated } from './recalculated';

/*
 * Somebody who was not there follows a number to its readings, sees what was changed, seals, signs and takes the
 * evidence away. Each test goes on where the one before it ended. The room and its readings are invented.
 */
let workbench: Workbench;
let pane: Frame;
let folder: string;
let sheet: string;
const ROOM = { projector: 'Quayside reading room (invented)', mode: 'Bright', width: '1.6' };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'audit-'));
  workbench = await openWorkbench();
  ({ pane } = workbench);
  workbench.page.on('dialog', (dialog) => void dialog.accept());
  await fillForm(pane, ROOM);
  sheet = await build(pane);
  await fillRun(pane, sheet);
  await toPage(pane, 'audit');
  await pane.getByRole('heading', { name: 'Where a number comes from' }).waitFor();
}, 120_000);
afterAll(async () => {
  await workbench.close();
  await rm(folder, { recursive: true });
});

const card = (name: string) => pane.getByRole('region', { name });
const press = (name: string) => pane.getByRole('button', { name, exact: true }).click();
const cell = async (name: string) => (await placeOf(pane, sheet, name)).split(':')[0]!;
const box = () => workbench.page.locator(NAME_BOX).inputValue();
/** As somebody who has lifted the protection. */
function byHand(at: string, what: { formula?: string; value?: number | string }): Promise<void> {
  return pane.evaluate(
    ([name, address, { formula, value }]) =>
      Excel.run(async (context) => {
        const worksheet = context.workbook.worksheets.getItem(name);
        worksheet.protection.load('protected');
        await context.sync();
        if (worksheet.protection.protected) worksheet.protection.unprotect();
        const range = worksheet.getRange(address);
        if (formula !== undefined) range.formulas = [[formula]];
        if (value !== undefined) range.values = [[value]];
        await context.sync();
      }),
    [sheet, at, what] as const,
  );
}
async function lookAt(name: string): Promise<void> {
  const { page } = workbench;
  const size = page.viewportSize()!;
  for (const width of [320, 400, 1400]) {
    // The widest is the pane alone, as in a window of its own.
    await page.setViewportSize({ width: width === 1400 ? 2100 : size.width, height: size.height });
    await resizePane(page, width);
    const height = await pane.evaluate(() => document.documentElement.scrollHeight);
    await page.setViewportSize({ width: page.viewportSize()!.width, height: Math.min(2400, height + 160) });
    await shot(page, `${name}-${width}`);
    expect(
      await pane.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
    ).toBeLessThanOrEqual(0);
    await page.setViewportSize(size);
  }
  await resizePane(page, 400);
}

test('a result is followed to its readings, and a click selects them', async () => {
  const { page } = workbench;
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput!, 8);
  await goTo(page, await cell('WhiteLightOutput'));
  await press('Trace the selected cell');
  const tree = pane.getByRole('list', { name: /^Chain of White light output/ });
  await tree.waitFor();
  expect(await tree.textContent()).toContain('1249.44 lm');
  await press('Open all');
  // By hand: 7809 lx over nine points, each standing for 1.44 m² ÷ 9 (see the readings).
  expect(await tree.textContent()).toMatch(
    /mean\(808; 901; 816; 886; 996; 892; 801; 898; 811\) × 1\.44 = 1249\.44/,
  );
  expect(await tree.textContent()).toMatch(/ISO\/IEC 21118/);
  const readings = await placeOf(pane, sheet, 'WhiteReadings');
  await pane
    .getByRole('button', { name: `Go to ${readings}` })
    .first()
    .click();
  await expect.poll(box).toMatch(new RegExp(`^(WhiteReadings|${readings}|${readings.split(':')[0]})$`));
  const width = await cell('ImageWidth');
  await pane
    .getByRole('button', { name: `Go to ${width}`, exact: true })
    .first()
    .click();
  await expect.poll(box).toMatch(new RegExp(`^(ImageWidth|${width})$`));
  expect(await violations(pane)).toEqual([]);
});

test('the chain becomes a sheet, and a text', async () => {
  await press('Write the chain to a sheet');
  await pane.getByText(/^Wrote the chain to the sheet “Trace /).waitFor();
  const built = (await sheetNames(pane)).find((name) => name.startsWith('Trace '))!;
  expect(await namedValue(pane, built, 'MadeWith')).toMatch(/^Light Output Workbook \d/);
  await shot(workbench.page, 'audit-trace-sheet');
  await workbench.page.getByText(sheet, { exact: true }).click();
});

test('an altered formula and a rewritten one are found, gone to and put back one by one', async () => {
  const [plain, own] = [await cell('WhiteLightOutputPlain'), await cell('WhiteLightOutput')];
  await byHand(plain, { formula: '=AVERAGE(WhiteReadings)*ImageArea' });
  // What a program leaves behind that opened the file without the add-in.
  await byHand(own, { formula: '=_xldudf_LIGHT_OUTPUT(WhiteReadings)' });
  await press('Check this sheet');
  const findings = pane.getByRole('list', { name: 'Findings' });
  const item = (text: string) => findings.getByRole('listitem').filter({ hasText: text }).first();
  await item(`The formula in ${plain} is not the one built.`).waitFor();
  await item(`A host has rewritten the call in ${own}`)
    .or(item(`The formula in ${own} is not`))
    .first()
    .waitFor();
  await item('The sheet is not protected').waitFor();
  await item(`The formula in ${plain}`)
    .getByRole('button', { name: `Go to ${plain}` })
    .click();
  // Where two cells are merged the box names both.
  await expect.poll(box).toMatch(new RegExp(`^${plain}(:[A-Z]+[0-9]+)?$`));
  await lookAt('audit-findings');
  for (const at of [plain, own]) {
    await findings
      .getByRole('listitem')
      .filter({ has: pane.getByRole('button', { name: `Go to ${at}`, exact: true }) })
      .getByRole('button', { name: 'Put the planned formula back' })
      .first()
      .click();
    await pane.getByText(new RegExp(`^Repaired ${at}\\.`)).waitFor();
  }
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput!, 8);
  await press('Check this sheet');
  await pane.getByText(/^Yes: .* 1 sheet checked\.$/).waitFor();
});

test('a name that went away is set again, and the results are there again', async () => {
  // The embedded engine computes anew what stayed behind; in Excel, Refresh results is offered for it as well.
  const range = await placeOf(pane, sheet, 'ImageArea');
  await pane.evaluate(
    ([name]) =>
      Excel.run(async (context) => {
        const worksheet = context.workbook.worksheets.getItem(name!);
        worksheet.names.getItem('ImageArea').delete();
        await context.sync();
      }),
    [sheet],
  );
  await expect.poll(() => namedValue(pane, sheet, 'WhiteLightOutputPlain')).toBe('see set-up');
  await press('Check this sheet');
  const findings = pane.getByRole('list', { name: 'Findings' });
  await findings
    .getByText(/ImageArea/)
    .first()
    .waitFor();
  await findings.getByRole('button', { name: 'Set the name again' }).first().click();
  await pane.getByText(/^Repaired /).waitFor();
  expect(await placeOf(pane, sheet, 'ImageArea')).toBe(range);
  const refresh = pane.getByRole('button', { name: 'Refresh the results of the sheet' }).first();
  if ((await refresh.count()) > 0) {
    await refresh.click();
    await pane.getByText(/^Repaired /).waitFor();
  }
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput!, 8);
});

test('the whole workbook is checked, and the findings become a sheet', async () => {
  await press('Check the whole workbook');
  await pane.getByText(/ 1 sheet checked\.$/).waitFor();
  await press('Write the findings to a sheet');
  await pane.getByText(/^Wrote the findings to the sheet “Findings/).waitFor();
  await shot(workbench.page, 'audit-findings-sheet');
  await workbench.page.getByText(sheet, { exact: true }).click();
});

let print: string;
test('a key is made, the seal signed, and whose it is stands beside it', async () => {
  await pane.getByLabel('Who seals or opens').fill('A. Nobody (invented)');
  await pane.locator('.KeyFold_keys > summary').click();
  await press('Make a key');
  await pane.getByText(/^A key was made\. It stays in this browser/).waitFor();
  print = (await pane.locator('.KeyFold_keys code').first().textContent())!;
  // SHA-256 in base64url without padding (RFC 7638, RFC 4648): 43 characters.
  expect(print).toMatch(/^[A-Za-z0-9_-]{43}$/);
  await press('Seal this sheet');
  await pane.getByText(/^Sealed “.*” and signed the seal\.$/).waitFor();
  const verdict = pane.locator('.SealVerdict_verdict');
  expect(await verdict.textContent()).toContain('The seal holds: everything is as it was sealed.');
  expect(await verdict.textContent()).toContain(`fits, key ${print}, which is yours`);
});

test('after a change exactly what differs is named, and as it was again the seal holds', async () => {
  const centre = await pane.evaluate(
    ([name]) =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets
          .getItem(name!)
          .names.getItem('WhiteReadings')
          .getRange()
          .getCell(1, 1);
        range.load('address,values');
        range.values = [[1001]];
        await context.sync();
        return range.address.slice(range.address.lastIndexOf('!') + 1);
      }),
    [sheet],
  );
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput! + 0.16, 8);
  await press('Compare with its seal');
  const differences = pane.getByRole('list', { name: 'Differences' }).getByRole('listitem');
  await differences.first().waitFor();
  // One cell was typed; every other difference is a result that follows from it, folded away.
  expect(await differences.allTextContents()).toEqual([
    expect.stringMatching(new RegExp(`^Cell ${centre} changed.*now 1001`)),
  ]);
  const fold = pane.getByText(/^\d+ results, as they follow from it or were changed too$/);
  await fold.click();
  const results = pane.getByRole('list', { name: 'Results that differ' }).getByRole('listitem');
  const result = await cell('WhiteLightOutput');
  await results.filter({ hasText: `Result of ${result} changed` }).waitFor();
  await fold.click();
  await differences
    .first()
    .getByRole('button', { name: `Go to ${centre}` })
    .click();
  await expect.poll(box).toBe(centre);
  await lookAt('audit-seal');
  expect(await violations(pane)).toEqual([]);
  await byHandReading(1000);
  await press('Compare with its seal');
  await pane.getByText('The seal holds: everything is as it was sealed.').waitFor();
});

function byHandReading(value: number): Promise<void> {
  return pane.evaluate(
    ([name, reading]) =>
      Excel.run(async (context) => {
        const names = context.workbook.worksheets.getItem(name).names;
        names.getItem('WhiteReadings').getRange().getCell(1, 1).values = [[reading]];
        await context.sync();
      }),
    [sheet, value] as const,
  );
}

test('opening the seal is recorded with the sheet and in the log', async () => {
  await pane.locator('.SealCard_reopen > summary').click();
  await pane.getByLabel('Why it is opened').fill('=Range factor (was wrong)');
  await press('Take the seal off');
  await pane.getByText(/is open again; who, when and why are kept with it/).waitFor();
  await pane.locator('.SealVerdict_verdict summary', { hasText: 'History' }).click();
  await pane.getByText(/^reopened .* by A\. Nobody \(invented\): =Range factor/).waitFor();
  await press('Show the last lines');
  const lines = card('Log').getByRole('list', { name: 'Last lines of the log' }).getByRole('listitem');
  await expect.poll(async () => (await lines.first().textContent()) ?? '').toContain('reopened');
  expect(await lines.first().textContent()).toContain('=Range factor (was wrong)');
  await press('Go to the log');
  await expect.poll(box).toMatch(/^(LogHead|A4(:F4)?)$/);
  await shot(workbench.page, 'audit-log-sheet');
});

test('a plain copy is saved, and computed without us to the same numbers', async () => {
  await press('Make a plain copy');
  await pane.getByText(/^The copy is ready\./).waitFor();
  const [saved] = await Promise.all([workbench.page.waitForEvent('download'), press('Save it as a file')]);
  expect(saved.suggestedFilename()).toBe('plain-copy.xlsx');
  const path = join(folder, 'plain.xlsx');
  await saved.saveAs(path);
  const bytes = new Uint8Array(await readFile(path));
  const { sheets } = await recalculated(bytes);
  expect(sheets[0]!.name).toBe('Plain copy');
  const run = sheets.find(({ name }) => name === sheet)!;
  const value = async (name: string) => run.cells[await cell(name)]?.value;
  for (const [name, wanted] of Object.entries(EXPECTED)) {
    for (const each of name === 'ImageArea' ? [name] : [name, `${name}Plain`]) {
      expect(Math.abs(((await value(each)) as number) / wanted - 1), each).toBeLessThan(1e-9);
    }
  }
  const cells = sheets.flatMap((each) => Object.values(each.cells));
  expect(cells.some(({ formula }) => /LIGHT[._]|xldudf/.test(formula ?? ''))).toBe(false);
  expect(cells.some((each) => typeof each.value === 'object' && each.value !== null)).toBe(false);
});

test('the log tells it all, in order, and a key outlives the workbook', async () => {
  const told = await pane.evaluate(() =>
    Excel.run(async (context) => {
      const used = context.workbook.worksheets.getItem('Log').getRange('A:F').getUsedRange(true);
      used.load('values,formulas');
      await context.sync();
      return used.values.map((row, i) => ({
        what: String(row[2]),
        who: String(row[1]),
        formula: used.formulas[i]![4],
      }));
    }),
  );
  const deeds = told.slice(told.findIndex(({ what }) => what === 'What') + 1).map(({ what }) => what);
  expect(deeds[0]).toBe('built');
  const order = ['built', 'exported', 'checked', 'repaired', 'sealed', 'signed', 'reopened', 'exported'];
  let from = -1;
  for (const deed of order) {
    from = deeds.indexOf(deed, from + 1);
    expect(from, `${deed} in ${deeds.join(' ')}`).toBeGreaterThanOrEqual(0);
  }
  const { page } = workbench;
  await Promise.all([page.waitForEvent('framenavigated'), page.getByText('New', { exact: true }).click()]);
  pane = await readyPane(page);
  await toPage(pane, 'audit');
  await pane.getByText('Signing: seals are signed with your key').click();
  expect(await pane.locator('.KeyFold_keys code').first().textContent()).toBe(print);
  await expect.poll(() => pane.getByLabel('Who works here').inputValue()).toBe('A. Nobody (invented)');
  expect(workbench.errors).toEqual([]);
});
