import { copyFile, readFile } from 'node:fs/promises';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Download, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type FieldId, TEST_FIELDS } from '../../src/fields/field';
import { markerMarks } from '../../src/fields/marker';
import { NINE_POINTS } from '../../src/photometry/points';
import { readPng } from '../fields/png';
import { difference, type paint, type Raster } from '../fields/raster';
import { cases } from '../tools/amount';
import { violations } from './axe';
import { openWorkbench, sharedBrowser } from './browser';
import {
  type FieldsPage,
  look,
  openBeside,
  openFields,
  pictureFor,
  press,
  reopen,
  untilAsleep,
  untilShown,
} from './fieldspage';
import { toPage } from './pane';

declare global {
  interface Window {
    /** In the window that guides: what it was told, and how it talks. */
    guide: {
      readonly heard: { kind: string; id?: number; shown?: { field: FieldId } | null }[];
      say(message: unknown): void;
    };
  }
}

const SIZE = { width: 1280, height: 800 };

let context: BrowserContext;
let fields: FieldsPage;
beforeAll(async () => {
  context = await (await sharedBrowser()).newContext({ viewport: SIZE, acceptDownloads: true });
  fields = await openFields(context);
});
afterAll(() => context.close());

/** The page as it begins, in a window of the usual size. */
async function begun(hash = ''): Promise<FieldsPage> {
  await fields.page.setViewportSize(SIZE);
  await reopen(fields, hash);
  return fields;
}

/** The page as on a screen that the system or the browser scales, emulated as by developer tools. */
async function scaled<T>(
  { width, height }: typeof SIZE,
  deviceScaleFactor: number,
  ask: (page: Page) => Promise<T>,
): Promise<T> {
  const session = await context.newCDPSession(fields.page);
  const metrics = { width, height, deviceScaleFactor, mobile: false };
  await session.send('Emulation.setDeviceMetricsOverride', metrics);
  await reopen(fields);
  const answer = await ask(fields.page);
  await session.send('Emulation.clearDeviceMetricsOverride');
  await session.detach();
  return answer;
}

/** The brightest channel of any pixel. */
const brightest = ({ rgb }: Raster) => rgb.reduce((most, value) => Math.max(most, value), 0);
const heading = (page: Page) => page.locator('h1').textContent();

test('the pane leads there', async () => {
  const workbench = await openWorkbench();
  const opened = workbench.page.waitForEvent('popup');
  await toPage(workbench.pane, 'fields');
  await workbench.pane.getByRole('link', { name: 'Open the test fields' }).click();
  await (await opened).getByRole('heading', { name: 'Test fields' }).waitFor();
  expect(workbench.errors).toEqual([]);
  await workbench.close();
});

describe('by keyboard', () => {
  test('a run steps through every field, there and back, and leaves', async () => {
    const { page, errors } = await begun();
    expect(await heading(page)).toBe('Test fields');
    // Tab reaches the first button, which goes full screen and shows the first field.
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await untilShown(page, 'grid');
    expect(await page.evaluate(() => document.fullscreenElement !== null)).toBe(true);
    for (const { id } of TEST_FIELDS.slice(1)) {
      await page.keyboard.press('ArrowRight');
      await untilShown(page, id);
    }
    await page.keyboard.press(' ');
    await untilShown(page, 'grid');
    await page.keyboard.press('ArrowLeft');
    await untilShown(page, TEST_FIELDS.at(-1)!.id);
    await page.keyboard.press('f');
    await page.waitForFunction(() => document.fullscreenElement === null);
    await untilShown(page, TEST_FIELDS.at(-1)!.id);
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: 'Test fields' }).waitFor();
    expect(errors()).toEqual([]);
  });

  test('full screen left by the browser’s own Escape leaves the field too', async () => {
    const { page } = await begun('#field=white');
    await page.keyboard.press('f');
    await page.waitForFunction(() => document.fullscreenElement !== null);
    await page.evaluate(() => document.exitFullscreen());
    await page.getByRole('heading', { name: 'Test fields' }).waitFor();
  });

  test('help comes on request, small and dim, and is gone without a trace', async () => {
    const { page } = await begun('#field=black');
    await untilAsleep(page);
    await page.keyboard.press('?');
    await page.locator('.fields_help').waitFor();
    expect(await page.locator('.fields_help').textContent()).toContain('Pattern A');
    // Grey letters on black: less than a third of white's light (0.55 to the power 2.2).
    expect(brightest(await look(page))).toBeLessThanOrEqual(140);
    await page.keyboard.press('Escape');
    await page.locator('.fields_help').waitFor({ state: 'detached' });
    expect(difference(await look(page), pictureFor('black', SIZE))).toBe('');
  });
});

describe('what is wrong with the window', () => {
  test('is said when it is not full screen, for as long as the mouse moves', async () => {
    const { page } = await begun('#field=white');
    await untilAsleep(page);
    expect(await page.locator('.fields_hint').count()).toBe(0);
    await page.mouse.move(400, 300);
    await expect.poll(() => page.locator('.fields_hint').textContent()).toContain('Not full screen');
    await untilAsleep(page);
    expect(await page.locator('.fields_hint').count()).toBe(0);
    expect(difference(await look(page), pictureFor('white', SIZE))).toBe('');
    await page.keyboard.press('f');
    await page.waitForFunction(() => document.fullscreenElement !== null);
    await page.keyboard.press('h');
    await expect.poll(() => page.locator('.fields_checks').textContent()).toBe('Full screen, not scaled.');
  });

  test('is said when the system or the browser scales', async () => {
    await scaled(SIZE, 1.5, async (page) => {
      const checks = page.locator('.fields_checks');
      await expect.poll(() => checks.textContent()).toContain('scale this screen by 1.5');
      expect(await checks.textContent()).toContain('1920 × 1200');
    });
  });

  test('the size stands on the start page, for comparison with the projector’s', async () => {
    const { page } = await begun();
    await expect.poll(() => page.locator('.fields_start').textContent()).toContain('1280 × 800 pixels drawn');
  });
});

describe('the ambient field', () => {
  test('says to block the light, dimly', async () => {
    const { page } = await begun('#field=ambient');
    await untilAsleep(page);
    expect(await page.locator('.fields_note').textContent()).toContain('block its light');
    expect(brightest(await look(page))).toBeLessThanOrEqual(140);
  });
});

describe('guided by another window', () => {
  /** A second window of the same origin that talks as the protocol says. */
  async function guided(): Promise<FieldsPage & { guide: Page }> {
    const { page: guide } = await begun();
    await guide.evaluate(() => {
      const channel = new BroadcastChannel('light-fields run 1');
      const heard: Window['guide']['heard'] = [];
      channel.addEventListener('message', ({ data }) => heard.push(data));
      window.guide = { heard, say: (message) => channel.postMessage(message) };
    });
    const beside = await openBeside(fields, '#pair=run 1');
    await guide.waitForFunction(() => window.guide.heard.length > 0);
    return { ...beside, guide };
  }

  /** Asks for a field and waits until it is said to be on the screen. */
  async function show(guide: Page, id: number, field: FieldId, marker: object | null): Promise<void> {
    await guide.evaluate((message) => window.guide.say(message), { kind: 'show', id, field, marker });
    await guide.waitForFunction(
      (wanted) => window.guide.heard.some((message) => message.kind === 'shown' && message.id === wanted),
      id,
    );
  }

  test('the marker is there before a reading and gone during it, whatever the mouse does', async () => {
    const { page, guide } = await guided();
    await page.bringToFront();
    // Thirteen fields are looked at twice, pixel by pixel: a small window has a fourth of them.
    const size = { width: SIZE.width / 2, height: SIZE.height / 2 };
    await page.setViewportSize(size);
    let id = 0;
    for (const { id: field } of TEST_FIELDS) {
      const point = NINE_POINTS[id % 9]!;
      await show(guide, ++id, field, { number: point.number, u: point.u, v: point.v });
      if (field !== 'ambient') {
        const plain = pictureFor(field, size);
        const marked = { ...plain, rgb: plain.rgb.slice() };
        overpaint(marked, markerMarks(size, point));
        expect([field, difference(await look(page), marked)]).toEqual([field, '']);
      }
      await show(guide, ++id, field, null);
      await page.mouse.move(300 + id, 300);
      expect(await page.locator('.fields_hint, .fields_note, .fields_help').count()).toBe(0);
      expect(await page.locator('main').getAttribute('data-awake')).toBe('false');
      expect([field, difference(await look(page), pictureFor(field, size))]).toEqual([field, '']);
    }
    await page.close();
  });

  test('it hears how the window stands, what a person does there, and that it was closed; another pair does not obey', async () => {
    const { page, guide, errors } = await guided();
    const last = () => guide.evaluate(() => window.guide.heard.at(-1));
    expect(await guide.evaluate(() => window.guide.heard[0])).toMatchObject({
      kind: 'state',
      shown: null,
    });
    const other = await openBeside(fields, '#pair=run 2');
    await page.bringToFront();
    await show(guide, 1, 'red', null);
    await expect.poll(last).toMatchObject({
      kind: 'shown',
      shown: { field: 'red', marker: null },
      facts: { drawn: SIZE, dpr: 1, isFullScreen: false, isCovering: true, isScaled: false, isVisible: true },
    });
    expect(await heading(other.page)).toBe('Test fields');
    await other.page.close();
    await page.keyboard.press('ArrowRight');
    await expect.poll(last).toMatchObject({ kind: 'state', shown: { field: 'green' } });
    await page.keyboard.press('f');
    await expect.poll(last).toMatchObject({ facts: { isFullScreen: true, findings: [] } });
    await page.keyboard.press('Escape');
    await expect.poll(last).toMatchObject({ shown: null });
    expect(errors()).toEqual([]);
    await page.close({ runBeforeUnload: true });
    await expect.poll(last).toEqual({ kind: 'closed' });
  });
});

describe('files for a stick', () => {
  /** Chooses in the form, presses Save and returns the files. */
  async function save(page: Page, choices: Readonly<Record<string, string>>, count: number) {
    for (const [label, option] of Object.entries(choices)) {
      const control = page.getByLabel(label, { exact: true });
      if (await control.evaluate((element) => element instanceof HTMLSelectElement))
        await control.selectOption({ label: option });
      else await control.fill(option);
    }
    const files: { name: string; path: string }[] = [];
    const coming = new Promise<void>((resolve) => {
      const take = async (download: Download) => {
        files.push({ name: download.suggestedFilename(), path: await download.path() });
        if (files.length < count) return;
        page.off('download', take);
        resolve();
      };
      page.on('download', take);
    });
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await coming;
    return files.sort((a, b) => (a.name < b.name ? -1 : 1));
  }

  test('all thirteen as PNG, each pixel as on the screen, at a typed resolution', async () => {
    const { page, errors } = await begun();
    const files = await save(
      page,
      { Resolution: 'another, typed', 'Width x height, pixels': '341x321', Format: 'PNG' },
      13,
    );
    expect(files.map(({ name }) => name)).toEqual(
      TEST_FIELDS.map(({ id }, i) => `${String(i + 1).padStart(2, '0')}-${id}-341x321.png`),
    );
    const size = { width: 341, height: 321 };
    for (const [i, { path }] of files.entries()) {
      const { id } = TEST_FIELDS[i]!;
      expect([id, difference(readPng(await readFile(path)), pictureFor(id, size))]).toEqual([id, '']);
    }
    await expect.poll(() => page.locator('#saved').textContent()).toBe('13 files of 341 × 321 pixels.');
    expect(await page.getByText(/Did the files appear\?/).count()).toBe(1);
    await page.getByRole('button', { name: 'Yes, it is there' }).click();
    await expect.poll(() => page.getByText('Saved: 13 files.').count()).toBe(1);
    expect(errors()).toEqual([]);
  });

  test('as SVG, each pixel as on the screen', async () => {
    const { page } = await begun();
    const viewer = await context.newPage();
    const size = { width: 1024, height: 768 };
    await viewer.setViewportSize(size);
    for (const title of cases(['Pattern C', 'Checkerboard, inverse'], ['Focus and geometry'])) {
      const [file] = await save(page, { Field: title, Resolution: '1024 × 768', Format: 'SVG' }, 1);
      const { id } = TEST_FIELDS.find((field) => field.title === title)!;
      const path = `${file!.path}.svg`;
      await copyFile(file!.path, path);
      await viewer.goto(pathToFileURL(path).href);
      expect([title, difference(await look(viewer), pictureFor(id, size))]).toEqual([title, '']);
    }
    await viewer.close();
  });

  test('a resolution that is none is refused in words', async () => {
    const { page } = await begun();
    await page.getByLabel('Resolution').selectOption({ label: 'another, typed' });
    await page.getByLabel('Width x height, pixels').fill('1920 by 1080');
    expect(await page.locator('#saved').textContent()).toContain('two whole numbers of pixels');
    expect(await page.getByLabel('Width x height, pixels').getAttribute('aria-invalid')).toBe('true');
    await page.getByLabel('Width x height, pixels').fill('99999 x 1080');
    await expect.poll(() => page.locator('#saved').textContent()).toContain('from 320 to 8192');
  });
});

describe('axe finds nothing', () => {
  test('on the start page', async () => {
    const { page } = await begun();
    expect(await violations(page)).toEqual([]);
    await page.getByLabel('Resolution').selectOption({ label: 'another, typed' });
    await page.getByLabel('Width x height, pixels').fill('x');
    expect(await violations(page)).toEqual([]);
  });

  test('on the start page of a narrow window at 200 % zoom', () =>
    scaled({ width: 320, height: 480 }, 2, async (page) => {
      expect(await violations(page)).toEqual([]);
      const overflow = await page
        .locator('.fields_start')
        .evaluate((start) => start.scrollWidth - start.clientWidth);
      expect(overflow).toBe(0);
    }));

  // What lies over the field is the same on every field but the ambient one, which has a note.
  test.each(cases<FieldId>(['white', 'ambient'], ['grid', 'black']))(
    'on %s, plain and with the help open',
    async (id) => {
      const { page } = await begun('#field=grid');
      await press(page, id);
      await untilAsleep(page);
      expect(await violations(page)).toEqual([]);
      await page.mouse.move(200, 200);
      await page.locator('.fields_hint').waitFor();
      expect(await violations(page)).toEqual([]);
      await page.keyboard.press('h');
      await page.locator('.fields_help').waitFor();
      expect(await violations(page)).toEqual([]);
    },
  );
});

/** Paints marks over a picture. */
function overpaint(picture: Raster, marks: Parameters<typeof paint>[1]): void {
  for (const { x, y, width, height, colour } of marks)
    for (let row = y; row < y + height; row++)
      for (let column = x; column < x + width; column++)
        picture.rgb.set(colour, (row * picture.width + column) * 3);
}
