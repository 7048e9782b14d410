import { readFile } from 'node:fs/promises';
import axe from 'axe-core';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readTemplate } from '../../src/template/read';
import type { TemplateFile } from '../../src/template/template';
import { openWorkbench, shot, type Workbench } from './browser';
import { namedValue, sheetNames } from './cells';
import { toPage } from './pane';

/** A template of an invented regional library network, as somebody else may send it. */
const TEMPLATE: TemplateFile = {
  format: 'light-template',
  version: 1,
  title: 'Reading rooms (invented)',
  rooms: [
    { room: 'Reading room 3 (invented)', width: 2, height: 1.25, ambient: 50 },
    { room: '=1+1', width: 1.6, height: 1, ambient: 30 },
  ],
  measuring: { colour: 'none', ambient: 'none', black: false },
  sheets: { need: {}, offers: { lines: 2 }, runs: { for: 'rooms', rated: 'chosen offer' }, comparison: true },
};

let workbench: Workbench;
let pane: Frame;
beforeAll(async () => {
  workbench = await openWorkbench({ pane: 320 });
  pane = workbench.pane;
  await toPage(pane, 'templates');
  await pane.getByText('Import a template').click();
});
afterAll(() => workbench.close());

const column = (sheet: string, name: string) =>
  pane.evaluate(
    ([from, what]) =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets.getItem(from!).names.getItem(what!).getRange();
        range.load('values');
        await context.sync();
        return range.values.flat();
      }),
    [sheet, name],
  );
const choose = (text: string) =>
  pane.getByLabel('Template file').setInputFiles({
    name: 'bid.json',
    mimeType: 'application/json',
    buffer: Buffer.from(text),
  });
async function violations(): Promise<string[]> {
  await pane.evaluate(axe.source);
  const found = await pane.evaluate(() => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    return axe.run(document.body, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] });
  });
  return found.violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
}
const ours = async () => (await sheetNames(pane)).filter((name) => name !== 'Sheet1' && name !== 'Log');

test('a file that is no template is refused by the path of what is wrong', async () => {
  await choose(JSON.stringify({ ...TEMPLATE, sheets: { need: { spare: 'many' } } }));
  await pane.getByText('sheets.need.spare: it must be a whole number from 0 to 50; it is "many".').waitFor();
  expect(await pane.getByRole('button', { name: 'Keep it in this workbook' }).count()).toBe(0);
});

test('a template is looked at, kept in the workbook and given on as a file', async () => {
  await choose(JSON.stringify(TEMPLATE));
  await pane.getByText('6 sheets would be built:').waitFor();
  expect(await violations()).toEqual([]);
  await pane.getByRole('button', { name: 'Keep it in this workbook' }).click();
  await pane.getByText('“Reading rooms (invented)” is kept in this workbook.').waitFor();
  await pane.getByRole('button', { name: /^Export/ }).click();
  const [download] = await Promise.all([
    workbench.page.waitForEvent('download'),
    pane.getByRole('button', { name: 'Save the file' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('reading-rooms-invented.light-template.json');
  const read = readTemplate(await readFile(await download.path(), 'utf8'));
  expect(read.ok && read.template.rooms.map(({ room }) => room)).toEqual([
    'Reading room 3 (invented)',
    '=1+1',
  ]);
});

test('building stops after the sheet that is being built: what is there is complete', async () => {
  await pane.getByRole('button', { name: /^Build its sheets/ }).click();
  await pane.getByLabel('Word before the names of the sheets').fill('Try');
  // The spreadsheet and the pane share the page's time here, so the page itself presses Stop at the second sheet.
  await pane.evaluate(() => {
    const seen: string[] = [];
    Object.assign(window, { seen });
    const watcher = new MutationObserver(() => {
      const text = document.querySelector('[aria-labelledby="templates-apply-title"] div > p')?.textContent;
      if (!text || seen.at(-1) === text) return;
      seen.push(text);
      if (!text.startsWith('Sheet 2')) return;
      watcher.disconnect();
      for (const button of document.querySelectorAll('button'))
        if (button.textContent === 'Stop') button.click();
    });
    watcher.observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  await pane.getByRole('button', { name: 'Build the 6 sheets' }).click();
  await pane
    .getByText(
      'Stopped after 2 of 6 sheets: “Try Need”, “Try Offers”. These are complete and stay; the others were not begun.',
    )
    .waitFor();
  expect(await ours()).toEqual(['Try Need', 'Try Offers']);
  expect(await pane.evaluate(() => (window as unknown as { seen: string[] }).seen)).toEqual([
    'Sheet 1 of 6: Need of 2 rooms',
    'Sheet 2 of 6: Offers, 2 lines to be filled in',
  ]);
  // (15 − 1) × 50 lx × 2.5 m² ÷ (0.7 × 0.8) = 3125 lm, rounded up to 3130.
  await expect.poll(() => namedValue(pane, 'Try Offers', 'AskedWhite')).toBe(3130);
});

test('the whole set is built and linked: the chosen offer reaches the runs', async () => {
  await pane.getByLabel('Word before the names of the sheets').fill('');
  await pane.getByRole('button', { name: 'Build the 6 sheets' }).click();
  await pane.getByText(/^Built 6 sheets/).waitFor();
  const built = ['Need', 'Offers', 'Run Reading room 3 (invented)', 'Run =1+1', 'Comparison', 'Overview'];
  expect((await ours()).slice(2)).toEqual(built);
  expect(await namedValue(pane, 'Run =1+1', 'RatedWhite')).toBe('no figure yet');
  await pane.evaluate(() =>
    Excel.run(async (context) => {
      const { names } = context.workbook.worksheets.getItem('Offers');
      names.getItem('Bidders').getRange().getCell(1, 0).values = [['North (invented)']];
      names.getItem('OfferWhite').getRange().getCell(1, 0).values = [[3300]];
      names.getItem('ChosenOffer').getRange().getCell(0, 0).values = [['North (invented)']];
      await context.sync();
    }),
  );
  await expect.poll(() => namedValue(pane, 'Run =1+1', 'RatedWhite')).toBe(3300);
  await expect.poll(() => namedValue(pane, 'Run =1+1', 'WhiteLimit')).toBeCloseTo(2640, 8);
});

test('the overview follows new sheets, a rename and a deletion, and shows no error', async () => {
  const listed = async () => (await column('Overview', 'SheetNames')).filter(Boolean);
  await expect.poll(listed).toContain('Try Need');
  await pane.evaluate(() =>
    Excel.run(async (context) => {
      context.workbook.worksheets.getItem('Run =1+1').name = 'Attic, Tuesday';
      context.workbook.worksheets.getItem('Try Offers').delete();
      await context.sync();
    }),
  );
  await expect.poll(listed).toContain('Attic, Tuesday');
  expect(await listed()).not.toContain('Run =1+1');
  const states = await column('Overview', 'States');
  expect(states[(await column('Overview', 'SheetNames')).indexOf('Try Offers')]).toBe('gone');
  for (const name of ['States', 'ResultValues', 'ResultU', 'Decisions', 'Abouts'])
    expect((await column('Overview', name)).filter((value) => String(value).startsWith('#'))).toEqual([]);
  await toPage(pane, 'home');
  await pane.getByText(/Listed there as gone: “Try Offers”/).waitFor();
  await pane.getByRole('button', { name: /^Go to sheet Attic/ }).click();
  await expect
    .poll(() =>
      pane.evaluate(() =>
        Excel.run(async (context) => {
          const active = context.workbook.worksheets.getActiveWorksheet();
          active.load('name');
          await context.sync();
          return active.name;
        }),
      ),
    )
    .toBe('Attic, Tuesday');
  const tooWide = await pane.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(tooWide).toBeLessThanOrEqual(0);
  await shot(workbench.page, 'templates-overview');
  // What the embedded engine says of itself when a sheet goes that others refer to; the results above are right.
  expect(workbench.errors.filter((error) => !error.startsWith('Dependency tree not found'))).toEqual([]);
});
