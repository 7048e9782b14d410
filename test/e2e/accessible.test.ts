import axe from 'axe-core';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { goTo, openWorkbench, shot, type Workbench } from './browser';
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
  await expect.poll(() => pane.locator('.missing').count()).toBeGreaterThan(0);
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
  await pane.locator('.progress h2', { hasText: '36 of 36' }).waitFor();
  await pane.locator('.sure').waitFor();
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
