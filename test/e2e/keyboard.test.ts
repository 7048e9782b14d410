import type { Frame, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openWorkbench, type Workbench } from './browser';
import { begin, openCapture } from './capturewindow';
import { build, fillForm, toPage } from './pane';

/*
 * The keyboard where the client library handles Tab and Escape itself, as in Excel on the web (read in
 * excel-web-16.00.debug.js, `addOrRemoveEventListenersForWindow`): it knows links, buttons, fields and what has a
 * tabindex, and nothing else. Rooms are invented.
 */
let workbench: Workbench;
beforeAll(async () => {
  workbench = await openWorkbench();
});
afterAll(() => workbench.close());

/** What a person can see and use, by a mark put on each; radio buttons of one question are one stop. */
function mark(frame: Frame | Page): Promise<string[]> {
  return frame.evaluate(() => {
    const controls = 'a[href], button:not(:disabled), input:not(:disabled), select, textarea, summary';
    const all = [...document.querySelectorAll<HTMLElement>(controls)].filter(
      (element) =>
        element.checkVisibility() &&
        !(element instanceof HTMLInputElement && element.type === 'radio' && !element.checked),
    );
    return all.map((element, number) => {
      element.dataset.mark = `${number} ${element.tagName.toLowerCase()} ${(element.textContent || element.id).slice(0, 30)}`;
      return element.dataset.mark;
    });
  });
}
/** The mark of what has the focus, empty if nothing has; what is no control gets one of its own. */
const focused = (frame: Frame | Page) =>
  frame.evaluate(() => {
    const element = document.activeElement as HTMLElement;
    if (element === document.body) return '';
    element.dataset.mark ??= `other ${document.querySelectorAll('[data-mark]').length}`;
    return element.dataset.mark;
  });
const outside = () => workbench.page.evaluate(() => document.activeElement?.id);

/** From the divider into the pane, to the first thing that takes the focus there. */
async function enter(): Promise<void> {
  const { page, pane } = workbench;
  await page.locator('#divider').focus();
  await page.keyboard.press('Tab');
  await expect.poll(() => pane.evaluate(() => document.activeElement !== document.body)).toBe(true);
}

/** Presses Tab from there until the focus has left the pane again; what it came to. */
async function walk(): Promise<string[]> {
  const { page, pane } = workbench;
  await enter();
  const found = [await focused(pane)];
  const hasLeft = async () => (await outside()) !== 'pane';
  for (;;) {
    await page.keyboard.press('Tab');
    // The library moves the focus, and tells the page around when nothing further takes it; both a moment later.
    await expect
      .poll(async () => (await hasLeft()) || !['', found.at(-1)].includes(await focused(pane)))
      .toBe(true);
    if (await hasLeft()) break;
    found.push(await focused(pane));
    if (found.length > 400) throw new Error('Tab goes round in the pane');
  }
  expect(await outside()).toBe('new');
  return found;
}

test.each(['run', 'need', 'offers', 'lot', 'audit'])(
  'every control of the page %s is reached by Tab, folds included',
  async (step) => {
    const { pane } = workbench;
    await toPage(pane, step);
    // A step that has only just come into view may still be put in place of what stood there.
    let shown: string[] = [];
    await expect
      .poll(async () => {
        const before = shown.join();
        shown = await mark(pane);
        return shown.join() === before;
      })
      .toBe(true);
    const reached = new Set(await walk());
    expect(shown.length).toBeGreaterThan(8);
    expect(shown.filter((each) => !reached.has(each))).toEqual([]);
  },
);

test('a fold opens by Enter and folds by the space bar; what is in it comes next', async () => {
  const { page, pane } = workbench;
  await toPage(pane, 'run');
  const summary = pane.locator('summary:visible').first();
  await summary.focus();
  const isOpen = () => summary.evaluate((element) => (element.parentElement as HTMLDetailsElement).open);
  const before = await isOpen();
  await page.keyboard.press('Enter');
  await expect.poll(isOpen).toBe(!before);
  await page.keyboard.press(' ');
  await expect.poll(isOpen).toBe(before);
});

test('Shift and Tab lead back out of the pane to the divider', async () => {
  const { page } = workbench;
  await enter();
  expect(await outside()).toBe('pane');
  await page.keyboard.press('Shift+Tab');
  await expect.poll(outside).toBe('divider');
});

test('in the capture window Tab goes round, arrows choose, and Escape folds what is open', async () => {
  const { pane } = workbench;
  await fillForm(pane, { projector: 'Lock branch (invented)', width: '2', further: { 'Black field': 'no' } });
  await build(pane);
  const window = await openCapture(workbench);
  const { page } = window;
  await begin(window);
  await page.getByRole('button', { name: 'Options', exact: true }).click();
  const shown = await mark(page);
  const reached = new Set<string>();
  for (let press = 0; press <= shown.length; press++) {
    await page.keyboard.press('Tab');
    reached.add(await focused(page));
  }
  expect(shown.filter((each) => !reached.has(each))).toEqual([]);
  const chosen = page.locator('input[name="screen"]:checked');
  const value = await chosen.inputValue();
  await chosen.focus();
  await page.keyboard.press('ArrowDown');
  await expect.poll(() => chosen.inputValue()).not.toBe(value);
  await page.keyboard.press('Escape');
  await page.locator('.Panels_panel > *').first().waitFor({ state: 'detached' });
  // A lost focus does not lose what is typed, and Escape clears it.
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  await page.keyboard.press('7');
  await expect.poll(() => page.locator('#reading').inputValue()).toBe('7');
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('#reading').inputValue()).toBe('');
  expect([...workbench.errors, ...window.errors]).toEqual([]);
});
