import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildComponents } from '../../src/build/components';
import { goTo, openWorkbench, sharedBrowser, shot, type Workbench } from './browser';
import { build, fillForm } from './pane';
import { fillRun } from './readings';

/** WCAG 2.2 A and AA as far as axe-core can tell; a real browser, so that contrast is measured too. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

const ROOM = { projector: 'Harbour branch, hall (invented)', mode: 'Bright', width: '1.6' };

let workbench: Workbench;
let sheet: string;
beforeAll(async () => {
  workbench = await openWorkbench({ pane: 320 });
});
afterAll(() => workbench.close());

async function violations(frame: Frame, exclude: readonly string[] = []): Promise<string[]> {
  await frame.evaluate(axe.source);
  const found = await frame.evaluate(
    ([rules, left]) => {
      const { axe } = window as unknown as { axe: typeof import('axe-core') };
      return axe.run(
        { include: ['body'], exclude: left as string[] },
        { runOnly: rules as string[], iframes: false, resultTypes: ['violations'] },
      );
    },
    [RULES, exclude],
  );
  return found.violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
}

test('the pane as it opens, its head at most 56 px high at 320', async () => {
  const { pane } = workbench;
  const head = await pane.locator('header').evaluate((header) => header.getBoundingClientRect());
  expect([head.width <= 320, head.top + head.height]).toEqual([true, expect.any(Number)]);
  expect(head.top + head.height).toBeLessThanOrEqual(56);
  expect(await violations(pane)).toEqual([]);
});

test('the page around the embedded spreadsheet', async () => {
  expect(await violations(workbench.page.mainFrame(), ['#grid'])).toEqual([]);
});

test('the pane with errors in the form', async () => {
  const { pane } = workbench;
  await fillForm(pane, { ...ROOM, width: '0' });
  await pane.getByRole('button', { name: 'Build the run sheet' }).click();
  await pane.locator('#field-length[aria-invalid="true"]').waitFor();
  expect(await violations(pane)).toEqual([]);
});

test('the pane with an empty run, and the page that refuses an edit', async () => {
  const { page, pane } = workbench;
  await fillForm(pane, ROOM);
  sheet = await build(pane);
  await expect.poll(() => pane.getByText(/^missing: /).count()).toBeGreaterThan(0);
  expect(await violations(pane)).toEqual([]);
  await goTo(page, 'WhiteLightOutput');
  await page.keyboard.type('1');
  await page.keyboard.press('Enter');
  await page.locator('#notice:not([hidden])').waitFor();
  expect(await violations(page.mainFrame(), ['#grid'])).toEqual([]);
});

test('the pane with results, everything unfolded', async () => {
  const { page, pane } = workbench;
  await fillRun(pane, sheet);
  await pane.locator('#progress-title', { hasText: '36 of 36' }).waitFor();
  await pane.locator('.Sure_sure').waitFor();
  await pane.locator('details').evaluateAll((all: HTMLDetailsElement[]) => {
    for (const details of all) details.open = true;
  });
  expect(await violations(pane)).toEqual([]);
  await shot(page, 'pane-320');
});

test('nothing is cut off at the narrowest width of the pane', async () => {
  const { pane } = workbench;
  const tooWide = await pane.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(tooWide).toBeLessThanOrEqual(0);
});

test('every component in every state: narrow and wide, light, dark and in forced colours, and its pictures as files', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'components-'));
  await buildComponents(folder);
  const context = await (await sharedBrowser()).newContext({ acceptDownloads: true });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  // Any address will do: the files are handed over as they were built.
  await page.route('https://components.invalid/**', (route) =>
    route.fulfill({ path: join(folder, new URL(route.request().url()).pathname) }),
  );
  await page.goto('https://components.invalid/components.html');
  await page.getByRole('heading', { name: 'Pictures' }).waitFor();
  const summaries = page.locator('figure summary');
  for (let i = 0; i < (await summaries.count()); i++) await summaries.nth(i).click();
  const schemes = [
    { colorScheme: 'light', forcedColors: 'none' },
    { colorScheme: 'dark', forcedColors: 'none' },
    { colorScheme: 'light', forcedColors: 'active' },
  ] as const;
  for (const scheme of schemes) {
    await page.emulateMedia(scheme);
    const name = scheme.forcedColors === 'active' ? 'contrast' : scheme.colorScheme;
    // The last is 320 px at 200 %.
    for (const width of [1400, 400, 320, 160]) {
      await page.setViewportSize({ width, height: 900 });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (width >= 320) expect([name, width, Math.max(0, over)]).toEqual([name, width, 0]);
      await shot(page, `components-${name}-${width}`, true);
    }
    await page.setViewportSize({ width: 400, height: 900 });
    // Forced colours are the person's own: there is no contrast of ours to measure.
    if (scheme.forcedColors === 'none') expect(await violations(page.mainFrame())).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'dark', forcedColors: 'none' });
  const save = async (kind: 'PNG' | 'SVG') => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page
        .getByRole('button', { name: `Save as ${kind}` })
        .first()
        .click(),
    ]);
    return { name: download.suggestedFilename(), contents: await readFile(await download.path()) };
  };
  const svg = await save('SVG');
  expect(svg.name).toBe('A-field-as-read.svg');
  // Light whatever the pane is, and nothing in it that other programs do not know.
  expect(svg.contents.toString()).toMatch(/^<svg[^>]*xmlns=.*<title>A field as read<\/title>.*1251/s);
  expect(svg.contents.toString()).not.toContain('var(');
  const png = await save('PNG');
  expect(png.name).toBe('A-field-as-read.png');
  // PNG specification, 5.2: the signature; 11.2.2: width and height follow the name of the first chunk.
  expect(png.contents.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
  expect([png.contents.readUInt32BE(16), png.contents.readUInt32BE(20)]).toEqual([172 * 4, 106 * 4]);
  expect(errors).toEqual([]);
  await context.close();
  await rm(folder, { recursive: true });
});
