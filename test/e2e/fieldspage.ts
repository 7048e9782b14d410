import type { BrowserContext, Page } from 'playwright-core';
import { inject } from 'vitest';
import { type FieldId, testField } from '../../src/fields/field';
import type { Size } from '../../src/fields/mark';
import { expectedPicture } from '../fields/expected';
import { readPng } from '../fields/png';
import { paint, type Raster } from '../fields/raster';

/** The page of the test fields in a real browser. */
export interface FieldsPage {
  readonly page: Page;
  /** What the console said as an error, refused by the content policy for instance, and exceptions nobody caught. */
  readonly errors: readonly string[];
}

/** Opens the page as the workbench serves it; `hash` as in "#field=red". */
export async function openFields(context: BrowserContext, hash = ''): Promise<FieldsPage> {
  // Time goes by as ever, and can be put forward.
  await context.clock.install();
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(String(error)));
  await page.goto(`${inject('workbench')}pane/fields.html${hash}`);
  await page.waitForSelector('h1');
  return { page, errors };
}

/** What is on the screen, in device pixels. */
export async function look(page: Page): Promise<Raster> {
  // Another session knows nothing of an emulated ratio; else a picture that is looked at once is packed loosely.
  if (page.viewportSize() && (await page.evaluate(() => devicePixelRatio)) !== 1)
    return readPng(await page.screenshot({ scale: 'device' }));
  const session = await page.context().newCDPSession(page);
  try {
    const { data } = await session.send('Page.captureScreenshot', { format: 'png', optimizeForSpeed: true });
    return readPng(Buffer.from(data, 'base64'));
  } finally {
    await session.detach();
  }
}

/** Longer than hint and pointer stay after the mouse was moved, in ms. */
const REST = 4_000;

/** Puts the time forward until neither hint nor pointer is left. */
export async function untilAsleep(page: Page): Promise<void> {
  await page.clock.fastForward(REST);
  await page.waitForSelector('main.asleep');
}

/** Waits until a field is shown, by the heading that a screen reader finds. */
export async function untilShown(page: Page, id: FieldId): Promise<void> {
  const { title } = testField(id);
  await page.waitForFunction((text) => document.querySelector('h1')?.textContent === text, title);
}

/** Shows a field by its key. */
export async function press(page: Page, id: FieldId): Promise<void> {
  await page.keyboard.press(testField(id).key);
  await untilShown(page, id);
}

/** The picture that a field must be; the grid is compared with its own marks, painted outside the browser (regression). */
export function pictureFor(id: FieldId, size: Size): Raster {
  return id === 'grid' ? paint(size, testField(id).marks(size)) : expectedPicture(id, size);
}
