import axe from 'axe-core';
import type { Frame, Page } from 'playwright-core';

/** Every rule of axe, best practices included, in a real browser, so that contrast is measured too: "rule: element". */
export async function violations(page: Page | Frame): Promise<string[]> {
  await page.evaluate(axe.source);
  const found = await page.evaluate(() =>
    (window as unknown as { axe: typeof import('axe-core') }).axe.run({ resultTypes: ['violations'] }),
  );
  return found.violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
}
