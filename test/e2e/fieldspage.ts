import type { BrowserContext, CDPSession, Page } from 'playwright-core';
import { inject } from 'vitest';
import { type FieldId, testField } from '../../src/fields/field';
import type { Size } from '../../src/fields/mark';
import { expectedPicture } from '../fields/expected';
import { readPng } from '../fields/png';
import { paint, type Raster } from '../fields/raster';

/** The page of the test fields in a real browser. */
export interface FieldsPage {
  readonly page: Page;
  /** What the console said as an error since it was last asked, refused by the content policy for instance, and exceptions nobody caught. */
  errors(): string[];
}

/** Opens the page as the workbench serves it; `hash` as in "#field=red". */
export async function openFields(context: BrowserContext, hash = ''): Promise<FieldsPage> {
  // Time goes by as ever, and can be put forward.
  await context.clock.install();
  const opened = over(await context.newPage());
  await opened.page.goto(addressOf(hash));
  await opened.page.waitForSelector('h1');
  return opened;
}

/** Loads the page anew: what the tests of one file do one after the other, since a new page takes four times as long. */
export async function reopen({ page, errors }: FieldsPage, hash = ''): Promise<void> {
  await page.goto(addressOf(hash));
  // Where only the hash differs, nothing was loaded.
  await page.reload();
  await page.waitForSelector('h1');
  errors();
}

/** A further window that a page of ours opens, in the same process. */
export async function openBeside({ page }: FieldsPage, hash: string): Promise<FieldsPage> {
  const [other] = await Promise.all([
    page.waitForEvent('popup'),
    page.evaluate((address) => void window.open(address), addressOf(hash)),
  ]);
  const opened = over(other);
  await other.waitForSelector('h1');
  return opened;
}

function over(page: Page): FieldsPage {
  const errors: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(String(error)));
  return { page, errors: () => errors.splice(0) };
}

const addressOf = (hash: string) => `${inject('workbench')}pane/fields.html${hash}`;

/** What is on the screen, in device pixels. */
export async function look(page: Page): Promise<Raster> {
  // Another session knows nothing of an emulated ratio; else a picture that is looked at once is packed loosely.
  if (page.viewportSize() && (await page.evaluate(() => devicePixelRatio)) !== 1)
    return readPng(await page.screenshot({ scale: 'device' }));
  let session = sessions.get(page);
  if (!session) {
    session = await page.context().newCDPSession(page);
    sessions.set(page, session);
  }
  const { data } = await session.send('Page.captureScreenshot', { format: 'png', optimizeForSpeed: true });
  return readPng(Buffer.from(data, 'base64'));
}
const sessions = new WeakMap<Page, CDPSession>();

/** Longer than hint and pointer stay after the mouse was moved, in ms. */
const REST = 4_000;

/** Puts the time forward until neither hint nor pointer is left. */
export async function untilAsleep(page: Page): Promise<void> {
  await page.clock.fastForward(REST);
  await page.waitForSelector('main[data-awake="false"]');
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
