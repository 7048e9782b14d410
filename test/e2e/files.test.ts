import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readXlsx } from '../../src/xlsx';
import { goTo, openWorkbench, readyPane, type, type Workbench } from './browser';
import { sheetNames, valueAt } from './cells';

let workbench: Workbench;
let folder: string;
let file: string;
const asked: string[] = [];
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'files-'));
  file = join(folder, 'typed.xlsx');
  workbench = await openWorkbench();
  // Whoever leaves a changed workbook is asked; these tests always say yes.
  workbench.page.on('dialog', (dialog) => {
    asked.push(dialog.message());
    void dialog.accept();
  });
});
afterAll(async () => {
  await workbench.close();
  await rm(folder, { recursive: true });
});

/** The new pane after something that puts another workbook into the page. */
async function replaced(act: () => Promise<void>): Promise<Frame> {
  const { page } = workbench;
  await Promise.all([page.waitForEvent('framenavigated'), act()]);
  return readyPane(page);
}

/** Saves by the button; answers the name that the page gives the file. */
async function save(to: string): Promise<string> {
  const { page } = workbench;
  const [saved] = await Promise.all([page.waitForEvent('download'), page.getByText('Save as .xlsx').click()]);
  await saved.saveAs(to);
  return saved.suggestedFilename();
}

test('a saved file holds what was typed, with the formula and its result', async () => {
  const { page, pane } = workbench;
  await type(page, 'B2', '248');
  await type(page, 'B3', '=B2*10');
  await expect.poll(() => valueAt(pane, 'Sheet1', 'B3')).toBe(2480);
  expect(await save(file)).toBe('workbook.xlsx');
  const book = await readXlsx(await readFile(file));
  expect(book.sheets[0]?.cells.B2?.value).toBe(248);
  expect(book.sheets[0]?.cells.B3).toMatchObject({ formula: '=B2*10', value: 2480 });
});

test('New gives an empty workbook, and the pane starts afresh', async () => {
  const { page } = workbench;
  const pane = await replaced(() => page.getByText('New', { exact: true }).click());
  await expect.poll(() => valueAt(pane, 'Sheet1', 'B2')).toBe('');
});

test('Open brings the file back, and typing goes on', async () => {
  const { page } = workbench;
  const pane = await replaced(() => page.setInputFiles('#file', file));
  await expect.poll(() => valueAt(pane, 'Sheet1', 'B3')).toBe(2480);
  expect(await sheetNames(pane)).toEqual(['Sheet1']);
  const again = join(folder, 'again.xlsx');
  expect(await save(again)).toBe('typed.xlsx');
  expect(await readXlsx(await readFile(again))).toEqual(await readXlsx(await readFile(file)));
  await type(page, 'B2', '31');
  await expect.poll(() => valueAt(pane, 'Sheet1', 'B3')).toBe(310);
});

test('what is still being typed into a cell is saved, and is not left without asking', async () => {
  const { page } = workbench;
  const open = join(folder, 'open.xlsx');
  await goTo(page, 'C3');
  await page.keyboard.type('77');
  await save(open);
  expect((await readXlsx(await readFile(open))).sheets[0]?.cells.C3?.value).toBe(77);
  await goTo(page, 'C4');
  await page.keyboard.type('78');
  const before = asked.length;
  await replaced(() => page.setInputFiles('#file', open));
  expect(asked.slice(before)).toEqual([expect.stringContaining('changes that are not saved')]);
});

test('a file that is no workbook is refused with a remedy, and the workbook stays', async () => {
  const { page } = workbench;
  await page.setInputFiles('#file', {
    name: 'note.xlsx',
    mimeType: 'application/octet-stream',
    buffer: Buffer.from('this is a text'),
  });
  await expect.poll(() => page.locator('#notice').textContent()).toMatch(/\w+\. \w+/);
  expect(await valueAt(await readyPane(page), 'Sheet1', 'C3')).toBe(77);
});
