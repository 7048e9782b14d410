import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterEach, describe, expect, test } from 'vitest';
import { launchChromium } from '../../src/build/chromium';
import { TEST_FIELDS } from '../../src/fields/field';
import type { Size } from '../../src/fields/mark';
import { NINE_POINTS } from '../../src/photometry/points';
import { PRIMARIES, sortTiles } from '../../src/photometry/tiles';
import { createProjector } from '../fields/projector';
import { difference } from '../fields/raster';
import { cases } from '../tools/amount';
import { sharedBrowser } from './browser';
import { look, openFields, pictureFor, press, untilAsleep } from './fieldspage';

/** Every field as it is measured. The ambient field has its note, which the window's own test looks at. */
const PICTURES = TEST_FIELDS.map(({ id }) => id).filter((id) => id !== 'ambient');

/** 3840 × 2160 means twelve pictures of 25 MB each. */
const LONG = 240_000;

const opened: { close(): Promise<void> }[] = [];
async function start(browser: Browser, options: BrowserContextOptions): Promise<Page> {
  const context = await browser.newContext(options);
  opened.unshift(context);
  const { page, errors } = await openFields(context, '#field=grid');
  await untilAsleep(page);
  expect(errors()).toEqual([]);
  return page;
}
afterEach(async () => {
  for (const one of opened.splice(0)) await one.close();
});

/** Goes through the fields by their keys and looks at each; returns what is not as specified. */
async function wrongPictures(page: Page, size: Size): Promise<string[]> {
  const wrong: string[] = [];
  for (const id of PICTURES) {
    await press(page, id);
    const found = difference(await look(page), pictureFor(id, size));
    if (found) wrong.push(`${id}: ${found}`);
  }
  return wrong;
}

describe('read back from the screen, every pixel of every field is as specified', () => {
  test.each(
    cases<[number, number, number]>(
      [
        [640, 480, 1],
        [426, 240, 1.5],
      ],
      [
        [1024, 768, 1],
        [854, 480, 1.5],
        [1280, 800, 1],
        [1920, 1080, 1],
        [3840, 2160, 1],
        [1280, 720, 1.5],
        [2560, 1440, 1.5],
        [960, 540, 2],
      ],
    ),
  )(
    '%d × %d CSS pixels at a ratio of %d, emulated as by developer tools',
    async (width, height, ratio) => {
      const page = await start(await sharedBrowser(), {
        viewport: { width, height },
        deviceScaleFactor: ratio,
      });
      expect(await wrongPictures(page, { width: width * ratio, height: height * ratio })).toEqual([]);
    },
    LONG,
  );

  test.each(
    cases<[string, string]>(
      [['1.25', '557,411']],
      [
        ['1.25', '821,611'],
        ['1.5', '1280,800'],
        ['1.5', '1365,767'],
        ['1.25', '1093,769'],
        ['1', '1366,768'],
      ],
    ),
  )(
    'at a ratio of %s set by the system, in a window of %s with a bar of the browser',
    async (ratio, window) => {
      const browser = await launchChromium([
        `--force-device-scale-factor=${ratio}`,
        `--window-size=${window}`,
      ]);
      opened.push(browser);
      const page = await start(browser, { viewport: null });
      const canvas = await page.evaluate(() => {
        const { width, height } = document.querySelector('canvas')!;
        return { width, height, ratio: String(devicePixelRatio) };
      });
      expect(canvas.ratio).toBe(ratio);
      // Sizes that no whole number of CSS pixels has are what this is about.
      expect(await wrongPictures(page, canvas)).toEqual([]);
    },
    LONG,
  );
});

describe('a window that changes', () => {
  test('draws the field anew at each size', async () => {
    const context = await (await sharedBrowser()).newContext();
    opened.push(context);
    const { page } = await openFields(context, '#field=pattern-b');
    await untilAsleep(page);
    for (const size of [
      { width: 1001, height: 701 },
      { width: 1280, height: 800 },
      { width: 640, height: 999 },
    ]) {
      await page.setViewportSize(size);
      await page.waitForFunction(({ width, height }) => {
        const canvas = document.querySelector('canvas')!;
        return canvas.width === width && canvas.height === height;
      }, size);
      expect(difference(await look(page), pictureFor('pattern-b', size))).toBe('');
    }
  });

  test('is what a simulated projector needs: true primaries and white, light added to white or not', async () => {
    const page = await start(await sharedBrowser(), { viewport: { width: 1280, height: 800 } });
    const pictures = [];
    for (const id of ['pattern-a', 'pattern-b', 'pattern-c', 'white'] as const) {
      await press(page, id);
      pictures.push(await look(page));
    }
    // The true values are put in: they are invented, and known.
    for (const added of [0, 430]) {
      const projector = createProjector({ red: 150, green: 600, blue: 120, added });
      const grids = pictures.map((picture) => {
        const nine = NINE_POINTS.map(({ u, v }) => projector.lux(picture, u, v));
        return [nine.slice(0, 3), nine.slice(3, 6), nine.slice(6)];
      });
      const [red, green, blue] = PRIMARIES.map((primary) => sortTiles(grids, primary).flat());
      expect([red, green, blue]).toEqual([Array(9).fill(150), Array(9).fill(600), Array(9).fill(120)]);
      expect(grids[3]!.flat()).toEqual(Array(9).fill(870 + added));
    }
  });
});
