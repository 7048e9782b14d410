import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Frame, Page } from 'playwright-core';
import { launchChromium } from './chromium';
import { site, taskpane } from './paths';
import { tighten } from './png';
import { serveSite } from './serve';
import { buildSite } from './site';

/*
 * Takes the README's pictures: the workbench with one run in it, and with the ready example. All data are invented:
 * a regional library network fits out its reading rooms.
 */

const SIZE = { width: 1400, height: 900 };

/** Answers in the form, by the ids of its fields. */
const FORM: Readonly<Record<string, string>> = {
  projector: 'Oldmarket reading room (invented)',
  mode: 'Bright',
  place: 'Regional library network (invented)',
  known: 'width',
  lengthUnit: 'm',
  length: '2.4',
  aspect: '16:10',
  digit: '0.1',
  ratedWhite: '3200',
  ratedColour: '3200',
  ofReading: '3',
  digits: '4',
  widthHalf: '5',
  heightHalf: '5',
};

/** Numbers on the display as they lie on the screen, in lx. */
const READINGS: Readonly<Record<string, readonly (readonly number[])[]>> = {
  Ambient: [[4]],
  White: [
    [812, 905, 820],
    [890, 1000, 896],
    [805, 902, 815],
  ],
  Red: [
    [160, 180, 161],
    [178, 200, 179],
    [159, 180, 163],
  ],
  Green: [
    [520, 580, 525],
    [570, 640, 575],
    [515, 580, 520],
  ],
  Blue: [
    [60.4, 66.1, 61.2],
    [65.3, 72.2, 65.5],
    [59.7, 66.4, 60.3],
  ],
};
await mkdir(dirname(site), { recursive: true });
const folder = await mkdtemp(join(dirname(site), 'picture-'));
await buildSite(folder);
const server = await serveSite(0, { folder });
const browser = await launchChromium();
try {
  const address = server.resolvedUrls!.local[0]!;
  await take('measure', await open(address), async (pane) => {
    await buildRun(pane);
    await pane.locator('#progress-title', { hasText: '36 of 36' }).waitFor();
    await pane.locator('.Sure_sure').waitFor();
    await pane.locator('#run-title').evaluate((title) => {
      window.scrollTo(0, title.closest('section')!.offsetTop - 8);
    });
  });
  await take('example', await open(address), showExample);
} finally {
  await browser.close();
  await server.close();
  await rm(folder, { recursive: true });
}

/** A page of its own, the pane a little wider than it starts. */
async function open(address: string): Promise<Page> {
  const page = await browser.newPage({ viewport: SIZE });
  await page.goto(address);
  await paneOf(page);
  await page.locator('#divider').focus();
  // 360 px wide at first, 10 px a step.
  for (let step = 0; step < 4; step++) await page.keyboard.press('ArrowLeft');
  return page;
}

async function take(name: string, page: Page, show: (pane: Frame) => Promise<void>): Promise<void> {
  await show(await paneOf(page));
  const file = join(taskpane, 'pictures', `${name}.png`);
  await mkdir(dirname(file), { recursive: true });
  const picture = tighten(await page.screenshot({ animations: 'disabled' }));
  await writeFile(file, picture);
  console.log(`${file}, ${Math.round(picture.length / 1000)} kB`);
  await page.close();
}

/** The lot of the ready example, with its failures in the pane. */
async function showExample(pane: Frame): Promise<void> {
  await pane.getByRole('button', { name: 'Open the example' }).click();
  await pane.getByText(/^Built \d+ sheets/).waitFor({ timeout: 180_000 });
  await pane.getByRole('button', { name: 'Home', exact: true }).click();
  await pane.getByRole('button', { name: /^Go to sheet Acceptance/ }).click();
  await pane.getByText(/The lot is rejected/).waitFor({ timeout: 60_000 });
  await pane.evaluate(() =>
    Excel.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load('items/name');
      await context.sync();
      const lot = worksheets.items.find(({ name }) => name.startsWith('Acceptance'))!;
      lot.activate();
      lot.names.getItem('LotVerdict').getRange().select();
      await context.sync();
    }),
  );
  await pane.getByText(/% of white$/).waitFor();
}

async function paneOf(page: Page): Promise<Frame> {
  const element = await page.waitForSelector('#pane');
  // The element is there a moment before its frame.
  let frame = await element.contentFrame();
  while (!frame) {
    await page.waitForTimeout(50);
    frame = await element.contentFrame();
  }
  await frame.waitForSelector('nav[aria-label="Places"]');
  return frame;
}

/** Through the pane's form; the readings all at once, through the client library. */
async function buildRun(pane: Frame): Promise<void> {
  await pane.getByRole('button', { name: 'How bright is this projector?' }).click();
  await pane.locator('#field-projector').waitFor();
  const folded = pane.locator('.Fold_group:not([open]) > summary');
  while ((await folded.count()) > 0) await folded.first().click();
  for (const [id, answer] of Object.entries(FORM)) {
    const field = pane.locator(`#field-${id}`);
    if ((await field.evaluate((element) => element.tagName)) === 'SELECT') await field.selectOption(answer);
    else await field.fill(answer);
  }
  await pane.getByRole('button', { name: 'Build the run sheet' }).click();
  await pane.locator('p.look_done', { hasText: 'Built the sheet' }).waitFor();
  await pane.evaluate(
    (readings) =>
      Excel.run(async (context) => {
        const sheet = context.workbook.worksheets.getActiveWorksheet();
        for (const [name, rows] of Object.entries(readings))
          sheet.names.getItem(`${name}Readings`).getRange().values = rows.map((row) => [...row]);
        // All four grids are in view from here.
        sheet.names.getItem('WhiteReadings').getRange().getCell(0, 0).select();
        await context.sync();
      }),
    READINGS,
  );
}
