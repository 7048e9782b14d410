import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { testField } from '../../src/fields/field';
import { markerMarks } from '../../src/fields/marker';
import { NINE_POINTS } from '../../src/photometry/points';
import { linear, STRIP_LUMINANCE } from '../../taskpane/capture/stray';
import { difference, paint, type Raster } from '../fields/raster';
import { violations } from './axe';
import { openWorkbench, shot, type Workbench } from './browser';
import { begin, type CaptureWindow, openCapture } from './capturewindow';
import { namedValues } from './cells';
import { look, pictureFor, untilShown } from './fieldspage';
import { build, fillForm, toPage } from './pane';
import { fillFields } from './readings';

/* Units, places and readings are invented. */
const WHITE = [412, 430, 405, 441, 468, 437, 402, 428, 399];
const part = (share: number) => WHITE.map((number) => Math.round(number * share));
const COLOURS = [0.24, 0.65, 0.25].flatMap(part);
/** Nine readings as they stand on the sheet. */
const rows = <T>(nine: readonly T[]) => [nine.slice(0, 3), nine.slice(3, 6), nine.slice(6)];
/** A busy machine takes more than a second for each of the readings. */
const LONG = 180_000;
/** About what a dialog of 34 × 84 per cent has on a screen of 1366 × 768. */
const PHONE = { width: 464, height: 645 };

let workbench: Workbench;
let window: CaptureWindow;
let sheet: string;
const cells = (sheet: string, name: string) => namedValues(workbench.pane, sheet, name);
beforeAll(async () => {
  workbench = await openWorkbench();
});
afterAll(() => workbench.close());

/** Nothing is cut off at the side, whatever is unfolded. */
async function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
}

describe('a spot check of two units', () => {
  beforeAll(async () => {
    const { pane } = workbench;
    await toPage(pane, 'spot');
    await pane.getByLabel('Units, one a line').fill('Branch A (invented)\nBranch B (invented)');
    await pane.getByRole('button', { name: 'Build the spot check' }).click();
    const done = pane.locator('p.look_done', { hasText: 'Built the sheet' });
    sheet = /“(.+)”/.exec((await done.textContent())!)![1]!;
    window = await openCapture(workbench);
  });
  afterAll(() => window.page.close());

  test('is read by keyboard, unit after unit at the centre, and the sheet has its relative figures', async () => {
    await begin(window);
    expect(await window.asked()).toBe('Ambientpoint 5, centre');
    await window.read('2');
    expect(await window.asked()).toBe('Branch A (invented), whitepoint 5, centre');
    for (const number of [202, 42, 122, 22]) await window.read(String(number));
    expect(await window.asked()).toBe('Branch B (invented), whitepoint 5, centre');
    expect(await window.page.locator('.capture_remark').textContent()).toContain(
      'Same place, same size of image.',
    );
    await shot(window.page, 'capture-spot');
    expect(await violations(window.page)).toEqual([]);
    for (const number of [182, 38, 112, 20]) await window.read(String(number));
    await window.settled();
    expect(await window.page.locator('h2').first().textContent()).toBe('All readings are taken');
    expect(await cells(sheet, 'GreenReadings')).toEqual([122, 112]);
    // Net white (202 − 2) and (182 − 2): the second has 180 ÷ 200 of the first; colour (186 − 6) and (170 − 6).
    expect(await cells(sheet, 'WhiteRelative')).toEqual([1, 0.9]);
    const colour = (await cells(sheet, 'ColourRelative')) as number[];
    expect(colour[1]).toBeCloseTo(164 / 180, 9);
  });
});

describe('a run', () => {
  beforeAll(async () => {
    const { pane } = workbench;
    await fillForm(pane, {
      projector: 'Branch 9 (invented)',
      mode: 'Bright',
      width: '2',
      further: { 'Black field': 'no' },
    });
    sheet = await build(pane);
    window = await openCapture(workbench);
    await window.page.setViewportSize(PHONE);
  });

  const unfold = async (name: string) => {
    await window.page.locator('.Tools_tools').getByRole('button', { name, exact: true }).click();
  };

  test('axe finds nothing, and nothing is cut off, in any state of the window', async () => {
    const { page } = window;
    const found: Record<string, unknown> = {};
    const look = async (state: string) => {
      const wrong = await violations(page);
      if (wrong.length > 0) found[state] = wrong;
      if ((await overflow(page)) > 0) found[`${state}, too wide`] = await overflow(page);
    };
    await look('steps before');
    await page.getByRole('button', { name: 'Light is on: start' }).click();
    expect(await page.getByRole('timer').textContent()).toMatch(/^1[45]:/);
    await look('warming up');
    await begin(window);
    await look('ambient');
    for (const number of ['2', '412', '43']) await window.read(number);
    await look('a question about a reading');
    await window.press('Escape');
    await window.read('1,234');
    await look('a question about the decimal mark');
    await window.press('Escape');
    await window.press('u');
    await look('a question about the unit');
    await window.press('Enter');
    for (const panel of ['Jump', 'Note', 'Options', 'Keys', 'Cautions']) {
      await unfold(panel);
      await look(panel);
      await page.keyboard.press('Escape');
      expect(await page.locator('.Panels_panel > *').count()).toBe(0);
    }
    // A digit finds its way from wherever the focus is.
    await page.locator('.Tools_tools button').first().focus();
    await window.press('7');
    expect(await page.locator('#reading').inputValue()).toBe('7');
    // And where nothing has the focus every key works.
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await window.press('8');
    expect(await page.locator('#reading').inputValue()).toBe('78');
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await window.press('Escape');
    expect(await page.locator('#reading').inputValue()).toBe('');
    await window.press('p');
    await look('paused');
    await window.press('Enter');
    expect(found).toEqual({});
  });

  test('what H unfolds is in view, and Escape leads back to the number', async () => {
    const { page } = window;
    await window.press('h');
    await page.locator('.Keys_keys').waitFor();
    const isInView = await page
      .locator('.Keys_keys dt')
      .first()
      .evaluate((element) => {
        const { top, bottom } = element.getBoundingClientRect();
        return top >= 0 && bottom <= innerHeight;
      });
    expect(isInView).toBe(true);
    await window.press('Escape');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('reading');
  });

  test('at 200 % zoom the run is read: what is asked and where it is typed are always in view', {
    timeout: LONG,
  }, async () => {
    // Red, green and most of blue are asked for like white: a window opened again finds them on the sheet.
    await window.settled();
    await fillFields(workbench.pane, sheet, {
      Red: rows(COLOURS.slice(0, 9)),
      Green: rows(COLOURS.slice(9, 18)),
      Blue: rows([...COLOURS.slice(18, 25), '', '']),
    });
    expect(window.errors).toEqual([]);
    await window.page.close();
    window = await openCapture(workbench);
    const { page } = window;
    await page.setViewportSize(PHONE);
    await page.waitForSelector('#reading');
    // The browser's zoom halves the window in CSS pixels and doubles the ratio; emulated so.
    const zoom = await page.context().newCDPSession(page);
    const [width, height] = [PHONE.width / 2, Math.floor(PHONE.height / 2)];
    await zoom.send('Emulation.setDeviceMetricsOverride', {
      width,
      height,
      deviceScaleFactor: 2,
      mobile: false,
    });
    const hidden: string[] = [];
    const inView = async (asked: string) => {
      const out = await page.evaluate(() =>
        ['#where-title', '#reading', '#factor'].filter((selector) => {
          const { top, bottom, left, right } = document.querySelector(selector)!.getBoundingClientRect();
          return top < 0 || left < 0 || bottom > innerHeight || right > innerWidth;
        }),
      );
      if (out.length > 0) hidden.push(`${asked}: ${out}`);
    };
    await page.evaluate(() => scrollTo(0, 0));
    for (const number of [...WHITE.slice(1), ...COLOURS.slice(-2), 466]) {
      await inView(await window.asked());
      await window.read(String(number));
    }
    await window.settled();
    expect(hidden).toEqual([]);
    expect(await overflow(page)).toBe(0);
    expect(await page.locator('h2').first().textContent()).toBe('All readings are taken');
    expect(await cells(sheet, 'WhiteReadings')).toEqual(WHITE);
    expect((await cells(sheet, 'BlueReadings')).slice(-2)).toEqual(COLOURS.slice(-2));
    await shot(page, 'capture-zoomed');
    expect(await violations(page)).toEqual([]);
    await zoom.send('Emulation.clearDeviceMetricsOverride');
    await zoom.detach();
    await page.setViewportSize(PHONE);
  });
});

describe('in the pane, where there is no window', () => {
  test('it is the same, reads the same sheet, and axe finds nothing', async () => {
    const { pane, page } = workbench;
    await window.page.close();
    await pane.getByRole('button', { name: 'Take them here' }).click();
    await pane.getByRole('heading', { name: 'All readings are taken' }).waitFor();
    expect(await violations(pane)).toEqual([]);
    await page.keyboard.press('/');
    await pane.locator('#reading').waitFor();
    await pane.getByRole('button', { name: 'Options', exact: true }).click();
    // A part of the pane can be no picture of a projector.
    expect(await pane.getByRole('radio').count()).toBe(2);
    expect(await violations(pane)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.type('466');
    await page.keyboard.press('Enter');
    await pane.getByRole('heading', { name: 'All readings are taken' }).waitFor();
    await expect.poll(() => cells(sheet, 'LastReading')).toEqual([466]);
    await pane.getByRole('button', { name: 'Back to the pane' }).click();
    window = await openCapture(workbench);
    await window.page.locator('#done-title').waitFor();
  });
});

describe('the field on the screen', () => {
  /** Jumps to a point by its label in the list. */
  async function jump(label: string): Promise<void> {
    await window.press('j');
    await window.page.getByRole('button', { name: new RegExp(`^${label}`) }).click();
  }
  async function choose(words: RegExp): Promise<void> {
    await window.page.getByRole('button', { name: 'Options', exact: true }).click();
    await window.page.getByRole('radio', { name: words }).check();
  }

  test('a fields window on a second screen follows: mark first, then the field alone', async () => {
    const { page } = window;
    const line = page.locator('.ScreenLine_screen');
    // Two readings back, from the page that says that all are taken.
    await window.press('/');
    await window.press('/');
    expect(await window.asked()).toBe('Bluepoint 9, bottom right');
    await choose(/^A fields window/);
    await page.getByLabel('Seconds until mark and strip go').fill('2');
    expect(await line.textContent()).toContain('No fields window follows yet');
    const opened = page.context().waitForEvent('page');
    await page.getByRole('link', { name: 'Open the fields window' }).click();
    const fields = await opened;
    await untilShown(fields, 'blue');
    await page.bringToFront();
    await window.press('Escape');
    await expect.poll(() => line.textContent()).toContain('Mark gone');
    expect(await violations(page)).toEqual([]);
    // The next mark stays as long as a busy machine takes to type.
    await page.getByRole('button', { name: 'Options', exact: true }).click();
    await page.getByLabel('Seconds until mark and strip go').fill('60');
    await window.press('Escape');
    await window.read(String(COLOURS.at(-1)));
    expect(await window.asked()).toBe('Last whitepoint 5, centre');
    await untilShown(fields, 'white');
    expect(await line.textContent()).toContain('Mark on the screen');
    // Whoever types now has read the display through the mark.
    await window.read('466');
    expect(await page.locator('.Question_question p').textContent()).toMatch(
      /^You began to type while the mark/,
    );
    await window.press('Escape');
    await expect.poll(() => line.textContent()).toContain('Mark gone');
    await fields.close({ runBeforeUnload: true });
    await expect.poll(() => line.textContent()).toContain('does not answer');
    await window.read('466');
    await window.settled();
  });

  test('on a mirrored screen the field is behind a small dark strip, which goes', async () => {
    const { page } = window;
    const size = { width: 1280, height: 720 };
    await page.setViewportSize(size);
    await jump('white, top left');
    await choose(/^The projector shows this window/);
    await window.page.getByLabel('Seconds until mark and strip go').fill('60');
    await window.press('Escape');
    const strip = page.locator('.Mirror_strip');
    await expect.poll(async () => (await strip.boundingBox())!.height).toBeLessThan(200);
    const box = (await strip.boundingBox())!;
    // Away from the sensor, which is at the top left: in the corner across.
    expect([Math.round(box.x + box.width), Math.round(box.y + box.height)]).toEqual([
      size.width,
      size.height,
    ]);
    const share = (box.width * box.height) / (size.width * size.height);
    console.info(
      `Strip: ${Math.round(box.width)} × ${Math.round(box.height)} pixels, ${(100 * share).toFixed(1)} % of 1280 × 720`,
    );
    expect(share).toBeLessThan(0.1);
    expect(await violations(page)).toEqual([]);

    const seen = await look(page);
    const mean = meanLight(seen, box);
    console.info(
      `Mean luminance of the strip: ${(100 * mean).toFixed(2)} % of white; at most ${(100 * STRIP_LUMINANCE).toFixed(2)} % is told`,
    );
    expect(mean).toBeLessThan(STRIP_LUMINANCE);
    const told = await strip.locator('.Mirror_stray').textContent();
    expect(told).toContain(`covers ${Number((100 * share).toPrecision(2))}\u00a0% of the field`);
    // Around the strip: the white field with the mark of point 1, and nothing else.
    const marked = paint(size, [...testField('white').marks(size), ...markerMarks(size, NINE_POINTS[0]!)]);
    expect(difference(without(seen, box), without(marked, box))).toBe('');
    await shot(page, 'capture-mirrored');

    // Time over: the field alone, read back pixel by pixel. Keys bring the strip back.
    await page.getByRole('button', { name: 'Options', exact: true }).click();
    await page.getByLabel('Seconds until mark and strip go').fill('1');
    await window.press('Escape');
    await page.waitForSelector('main[data-awake="false"]', { state: 'attached' });
    expect(difference(await look(page), pictureFor('white', size))).toBe('');
    await window.press('4');
    await page.waitForSelector('main[data-awake="true"]', { state: 'attached' });
    await window.press('Escape');
    await choose(/^The field is changed by hand/);
  });

  test('nothing was reported as an error', () => {
    expect([...workbench.errors, ...window.errors]).toEqual([]);
  });
});

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Mean luminance of a part of a picture, as a part of white's; weights of BT.709 (from memory). */
function meanLight({ rgb, width }: Raster, box: Box): number {
  let sum = 0;
  let count = 0;
  for (let y = Math.ceil(box.y); y < Math.floor(box.y + box.height); y++) {
    for (let x = Math.ceil(box.x); x < Math.floor(box.x + box.width); x++) {
      const [r, g, b] = rgb.subarray((y * width + x) * 3);
      sum += 0.2126 * linear(r!) + 0.7152 * linear(g!) + 0.0722 * linear(b!);
      count++;
    }
  }
  return sum / count;
}

/** A picture with a part of it blackened. */
function without({ rgb, width, height }: Raster, box: Box): Raster {
  const rest = rgb.slice();
  for (let y = Math.floor(box.y); y < Math.ceil(box.y + box.height); y++)
    rest.fill(0, (y * width + Math.floor(box.x)) * 3, (y * width + Math.ceil(box.x + box.width)) * 3);
  return { rgb: rest, width, height };
}
