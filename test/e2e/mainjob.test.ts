import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { cellsOf } from '../../src/sheets/address';
import { readXlsx } from '../../src/xlsx';
import { goTo, NAME_BOX, openWorkbench, readyPane, shot, type, type Workbench } from './browser';
import { namedValue, placeOf, sheetNames, valueAt } from './cells';
import { build, fillForm } from './pane';
import { AMBIENT, EXPECTED, FIELDS, fillFields, typeNamed, typeWhite } from './readings';
import { recalculated } from './recalculated';

/*
 * The whole job as a person does it: through the pane, by keyboard in the cells, with the real client library
 * between the pane and the spreadsheet. Each test goes on where the one before it ended.
 */
let workbench: Workbench;
let pane: Frame;
let folder: string;
let file: string;
let sheet: string;
const ROOM = { projector: 'Oldmarket reading room (invented)', mode: 'Bright', width: '1.6' };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'mainjob-'));
  file = join(folder, 'oldmarket.xlsx');
  workbench = await openWorkbench();
  ({ pane } = workbench);
  workbench.page.on('dialog', (dialog) => void dialog.accept());
});
afterAll(async () => {
  await workbench.close();
  await rm(folder, { recursive: true });
});

/** A result under "All other results", as the pane shows it. */
const other = (label: string) =>
  pane
    .locator('.figures_others dl > div', { has: pane.locator('dt', { hasText: new RegExp(`^${label}$`) }) })
    .locator('dd');
const figure = (label: string) => pane.locator('.figures_figure', { hasText: label });
const field = (label: string) =>
  pane.locator('.Progress_fields > li', { hasText: new RegExp(`^${label} \\d`) });
const results = async (title = sheet) =>
  Object.fromEntries(
    await Promise.all(Object.keys(EXPECTED).map(async (name) => [name, await namedValue(pane, title, name)])),
  ) as Record<string, unknown>;
/** The embedded engine rounds results to 12 digits. */
const RELATIVE = 1e-11;
function expectResults(found: Record<string, unknown>, relative = RELATIVE): void {
  for (const [name, wanted] of Object.entries(EXPECTED)) {
    expect(found[name], name).toBeTypeOf('number');
    expect(Math.abs((found[name] as number) / wanted - 1), name).toBeLessThan(relative);
  }
}

test('an image that cannot be is refused at its field, and nothing is built', async () => {
  await fillForm(pane, { ...ROOM, width: '0', further: { 'Aspect ratio': '16:0' } });
  await pane.getByRole('button', { name: 'Build the run sheet' }).click();
  await expect.poll(() => pane.locator('.look_unfit').textContent()).toMatch(/field/);
  expect(await pane.locator('#field-length').getAttribute('aria-invalid')).toBe('true');
  expect(await pane.locator('#field-aspect').getAttribute('aria-invalid')).toBe('true');
  expect(await sheetNames(pane)).toEqual(['Sheet1']);
});

test('the run sheet is built, named after the unit and the mode, and the cautions come before its readings', async () => {
  await fillForm(pane, ROOM);
  sheet = await build(pane);
  // An Excel sheet name has 31 characters at most.
  expect(sheet).toBe('Run Oldmarket reading room (inv');
  await expect.poll(() => sheetNames(pane)).toEqual(['Sheet1', sheet, 'Log']);
  expect(await namedValue(pane, sheet, 'ImageArea')).toBeCloseTo(EXPECTED.ImageArea!, 10);
  await expect.poll(() => field('white').textContent()).toContain('missing: all 9');
  const cautions = pane.locator('.Fold_grave');
  await expect.poll(() => cautions.evaluate((element: HTMLDetailsElement) => element.open)).toBe(true);
  expect(await cautions.textContent()).toContain('Never look into the lens');
  await pane.getByRole('button', { name: 'I have read this' }).click();
  await cautions.waitFor({ state: 'detached' });
});

test('a custom function over empty cells says what is missing; they are not readings of 0', async () => {
  const { page } = workbench;
  await page.getByText('Sheet1', { exact: true }).click();
  await type(page, 'A1', '=LIGHT.OUTPUT(E1:G3,1.44)');
  await expect.poll(() => valueAt(pane, 'Sheet1', 'A1')).toBe('#N/A');
  await page.getByText(sheet, { exact: true }).click();
  expect(await namedValue(pane, sheet, 'WhiteLightOutput')).toBe('0 of 9');
});

test('a missing reading is named in the pane and on the sheet; what does not need it stands', async () => {
  const { page } = workbench;
  await typeNamed(page, pane, sheet, 'AmbientReadings', String(AMBIENT));
  const { White, ...others } = FIELDS;
  const [top, middle, [left, centre]] = White;
  await typeWhite(page, pane, sheet, [top, middle, [left, centre]]);
  // The other fields are typed alike.
  await fillFields(pane, sheet, others);
  await expect.poll(() => field('white').textContent()).toContain('missing: bottom right (point 9)');
  expect(await namedValue(pane, sheet, 'WhiteLightOutput')).toBe('8 of 9');
  expect(await namedValue(pane, sheet, 'GreenLightOutput')).toBeCloseTo(EXPECTED.GreenLightOutput!, 8);
  await expect.poll(() => other('Green light output').textContent()).toBe('798.2 lm');
});

test('the pane brings the person to the missing reading; over range is no number', async () => {
  const { page } = workbench;
  await pane.getByRole('button', { name: /Go to white.*bottom right/i }).click();
  await page.locator('#grid canvas').first().focus();
  const corner = (await placeOf(pane, sheet, 'WhiteReadings')).split(':')[1]!;
  await type(page, corner, 'over');
  await expect.poll(() => field('white').textContent()).toContain('over range: bottom right (point 9)');
  expect(await namedValue(pane, sheet, 'WhiteLightOutput')).toBe('8 of 9');
  await shot(page, 'over-range');
});

test('36 readings give the results worked by hand, in the cells and in the pane', async () => {
  const { page } = workbench;
  const corner = (await placeOf(pane, sheet, 'WhiteReadings')).split(':')[1]!;
  await type(page, corner, String(FIELDS.White[2][2]));
  await expect.poll(() => pane.locator('#progress-title').textContent()).toBe('36 of 36 readings');
  expectResults(await results());
  await expect.poll(() => figure('White light output').textContent()).toMatch(/12\d\d/);
  const shown = async (label: string) =>
    Number(
      /\d[\d,]*/.exec((await figure(label).locator('.figures_big').textContent())!)![0].replace(',', ''),
    );
  // With its uncertainty a result is reported to the place of U's second digit: here to tens of lumens at most.
  expect(Math.abs((await shown('White light output')) - EXPECTED.WhiteLightOutput!)).toBeLessThanOrEqual(5);
  expect(Math.abs((await shown('Colour light output')) - EXPECTED.ColourLightOutput!)).toBeLessThanOrEqual(5);
  expect(await other('Red light output').textContent()).toBe('243.8 lm');
  expect(await other('Blue light output').textContent()).toBe('86.1 lm');
  // 7051 ÷ 7809 = 0.9029: within a tenth of 1.
  await expect.poll(() => pane.locator('.Results_ratio').textContent()).toMatch(/0\.90.*About 1/s);
  await shot(page, 'measured');
});

test('every plain formula agrees with its custom function', async () => {
  await expect.poll(() => pane.locator('.look_card', { hasText: 'Results' }).textContent()).toMatch(/agree/);
  expect(await pane.getByText(/differ/).count()).toBe(0);
});

test('a result cell is protected: typing there is refused and changes nothing', async () => {
  const { page } = workbench;
  await goTo(page, 'WhiteLightOutput');
  await expect.poll(() => page.locator(NAME_BOX).inputValue()).toBe('WhiteLightOutput');
  await page.keyboard.type('9999');
  await page.keyboard.press('Enter');
  await expect.poll(() => page.locator('#notice').textContent()).toContain('protected');
  expectResults(await results());
  await page.getByText('Dismiss').click();
});

describe('a second sheet of the same name', () => {
  let second: string;
  test('gets a number, and the first stays as it was', async () => {
    second = await build(pane);
    expect(second).toBe('Run Oldmarket reading room (i 2');
    expect((await sheetNames(pane)).filter((name) => name !== 'Log')).toEqual(['Sheet1', sheet, second]);
    expectResults(await results());
    expect(await namedValue(pane, second, 'WhiteLightOutput')).toBe('0 of 9');
  });

  test('takes a block pasted into the pane', async () => {
    await pane.locator('summary', { hasText: 'Paste readings' }).click();
    await pane.getByLabel('Into').selectOption({ label: 'White' });
    await pane.locator('#paste-text').fill(FIELDS.White.map((row) => row.join(';')).join('\n'));
    await pane.getByRole('button', { name: 'Write 9 readings' }).click();
    await expect.poll(() => field('white').textContent()).toContain('9 of 9');
    const white = cellsOf(await placeOf(pane, second, 'WhiteReadings'));
    expect(await Promise.all(white.map((at) => valueAt(pane, second, at)))).toEqual(FIELDS.White.flat());
  });

  test('takes a block pasted into its cells', async () => {
    const { page } = workbench;
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    const block = FIELDS.Red.map((row) => row.join('\t')).join('\n');
    const red = await placeOf(pane, second, 'RedReadings');
    await goTo(page, red.split(':')[0]!);
    await page.evaluate((text) => navigator.clipboard.writeText(text), block);
    await page.keyboard.press('Control+V');
    await expect
      .poll(() => Promise.all(cellsOf(red).map((at) => valueAt(pane, second, at))))
      .toEqual(FIELDS.Red.flat());
    await expect.poll(() => field('red').textContent()).toContain('9 of 9');
  });

  test('shares its names with the first, and each means its own sheet', async () => {
    expectResults(await results());
    expect(await namedValue(pane, second, 'RedLightOutput')).not.toBe(EXPECTED.RedLightOutput);
  });
});

test('the saved file is recalculated to the same numbers', async () => {
  const { page } = workbench;
  const places = Object.fromEntries(
    await Promise.all(
      Object.keys(EXPECTED).map(async (name) => [
        name,
        await placeOf(pane, sheet, name === 'ImageArea' ? name : `${name}Plain`),
      ]),
    ),
  ) as Record<string, string>;
  const [saved] = await Promise.all([page.waitForEvent('download'), page.getByText('Save as .xlsx').click()]);
  await saved.saveAs(file);
  const book = await recalculated(new Uint8Array(await readFile(file)));
  const { cells } = book.sheets.find(({ name }) => name === sheet)!;
  const found = Object.entries(places).map(([name, at]) => [name, cells[at.split(':')[0]!]?.value]);
  // LibreOffice keeps 15 digits.
  expectResults(Object.fromEntries(found), 1e-9);
});

test('the saved file, opened again, has the readings and the results', async () => {
  const { page } = workbench;
  const readings = cellsOf(await placeOf(pane, sheet, 'GreenReadings'));
  await Promise.all([page.waitForEvent('framenavigated'), page.getByText('New', { exact: true }).click()]);
  await readyPane(page);
  await Promise.all([page.waitForEvent('framenavigated'), page.setInputFiles('#file', file)]);
  pane = await readyPane(page);
  await expect.poll(() => sheetNames(pane)).toHaveLength(4);
  // What there is comes first, with its outcome.
  await pane.getByRole('button', { name: `Go to sheet ${sheet}` }).waitFor();
  await shot(page, 'reopened-home');
  await pane.getByRole('button', { name: `Go to sheet ${sheet}` }).click();
  await expect.poll(() => pane.locator('#progress-title').textContent()).toBe('36 of 36 readings');
  expectResults(await results());
  expect(await Promise.all(readings.map((at) => valueAt(pane, sheet, at)))).toEqual(FIELDS.Green.flat());
  expect(await page.locator('#notice').isVisible()).toBe(false);
  await shot(page, 'reopened');
});

test('readings go on in the opened file: one more lux at every point of white', async () => {
  const { page } = workbench;
  await page.getByText(sheet, { exact: true }).click();
  const more = FIELDS.White.map((row) => row.map((reading) => reading + 1));
  await typeWhite(page, pane, sheet, more.slice(0, 1));
  await fillFields(pane, sheet, { White: more });
  // 1 lx × 1.44 m² more.
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput! + 1.44, 8);
});

test('the file holds what was typed and nothing of our serial numbers', async () => {
  const book = await readXlsx(await readFile(file));
  const run = book.sheets.find(({ name }) => name === sheet)!;
  expect(run.isProtected).toBe(true);
  const formulas = Object.values(run.cells).flatMap(({ formula }) => formula ?? []);
  expect(formulas.some((formula) => formula.includes('LIGHT.OUTPUT(WhiteReadings'))).toBe(true);
  expect(formulas.filter((formula) => /[A-Za-z]\.\d+/.test(formula.replace(/"[^"]*"/g, '')))).toEqual([]);
});

test('nothing in the browser’s console', () => {
  expect(workbench.errors).toEqual([]);
});
