import axe from 'axe-core';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openWorkbench, type Workbench } from './browser';

/** WCAG 2.2 A and AA as far as axe-core can tell; a real browser, so that contrast is measured too. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

let workbench: Workbench;
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

test('the pane', async () => {
  expect(await violations(workbench.pane)).toEqual([]);
});

test('the page around the embedded spreadsheet', async () => {
  expect(await violations(workbench.page.mainFrame(), ['#grid'])).toEqual([]);
});
