import type { Page } from 'playwright-core';
import type { Workbench } from './browser';

/** The capture window in a real browser, opened through the dialog path of the workbench. */
export interface CaptureWindow {
  readonly page: Page;
  /** Key presses so far that were neither digits nor a decimal mark. */
  presses(): number;
  /** One key, counted. */
  press(key: string): Promise<void>;
  /** Digits of a number, then Enter, and waits until the window asks for something else or asks back. */
  read(number: string): Promise<void>;
  /** "white, point 1, top left" as the window asks. */
  asked(): Promise<string>;
  /** What it says to a screen reader. */
  said(): Promise<string>;
  /** Waits until everything that was accepted stands in the workbook. */
  settled(): Promise<void>;
  /** What its console said as an error, and exceptions nobody caught. */
  readonly errors: readonly string[];
}

/** Presses the button in the pane and waits for the window. */
export async function openCapture({ page, pane }: Pick<Workbench, 'page' | 'pane'>): Promise<CaptureWindow> {
  const opened = page.waitForEvent('popup');
  await pane.getByRole('button', { name: 'Take readings in a window' }).click();
  // The client library asks by itself, in the pane, whether the add-in may open a window.
  await pane.locator('#newWindowNotificaiton input').first().click();
  const window = await opened;
  const errors: string[] = [];
  window.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  window.on('pageerror', (error) => errors.push(String(error)));
  await window.waitForSelector('progress[aria-label="readings taken"]');
  return over(window, errors);
}

/** The same functions over a page that shows capture already. */
function over(page: Page, errors: readonly string[] = []): CaptureWindow {
  let presses = 0;
  const asked = async () =>
    ((await page.locator('h2').first().textContent()) ?? '').replace(/\s+/g, ' ').trim();
  const said = async () => (await page.locator('p[role="status"]').textContent()) ?? '';
  const press = async (key: string) => {
    if (!/^[\d.,]$/.test(key)) presses++;
    await page.keyboard.press(key);
  };
  return {
    page,
    errors,
    presses: () => presses,
    press,
    asked,
    said,
    read: async (number) => {
      const before = await said();
      for (const digit of number) await press(digit);
      await press('Enter');
      await page.waitForFunction(
        (text) =>
          document.querySelector('p[role="status"]')?.textContent !== text ||
          document.querySelector('.Question_question') !== null,
        before,
      );
    },
    settled: async () => {
      await page.waitForFunction(
        () =>
          document.querySelector('.Head_figures') !== null && document.querySelector('.Head_waits') === null,
      );
    },
  };
}

/** From the cautions by the Tab key to the picture mode; Enter there begins. */
export async function begin(window: CaptureWindow): Promise<void> {
  for (const key of ['Tab', 'Tab', 'Tab', 'Enter']) await window.press(key);
  await window.page.waitForSelector('#reading');
}
