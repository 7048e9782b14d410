import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, BrowserContext, Frame, Page } from 'playwright-core';
import { inject } from 'vitest';
import { launchChromium } from '../../src/build/chromium';

/** The workbench in a real browser. */
export interface Workbench {
  readonly page: Page;
  /** The pane's frame: code evaluated here runs where the add-in runs in Excel. */
  readonly pane: Frame;
  /** Every address that was asked for, data and blob addresses left out. */
  readonly requests: readonly string[];
  /** What the browser's console said as an error, and exceptions that nobody caught. */
  readonly errors: readonly string[];
  close(): Promise<void>;
}

export interface Size {
  /** Of the whole page, in pixels. */
  readonly width?: number;
  readonly height?: number;
  /** Of the pane. */
  readonly pane?: number;
  /** Runs in every page and frame before its own scripts. */
  readonly script?: () => void;
  /** As `npm start` serves it, over plain http. By itself over https, the add-in from another port than the spreadsheet. */
  readonly plain?: boolean;
  /** Results of functions come every 0.5 s, as the library hands them over by itself. */
  readonly longWaves?: boolean;
  /** Runs before the page is asked for: what is to be late. */
  readonly before?: (context: BrowserContext) => Promise<void>;
  /** Runs while the pane is loading. */
  readonly meanwhile?: (page: Page) => Promise<void>;
  /** Time goes by as ever, and can be put forward by `page.clock`. */
  readonly clock?: boolean;
}

/** How long a busy machine may take for one thing, in ms. */
const PATIENCE = 90_000;

/**
 * A nursery as large as a workbook needs, and fewer helpers that two busy processors have to share. Pages live for seconds:
 * code is optimized late, since optimizing took as long as most of it then ran.
 */
const FRUGAL = [
  `--js-flags=${[
    '--max-semi-space-size=64',
    '--min-semi-space-size=32',
    '--single-threaded-gc',
    '--invocation-count-for-maglev=8000',
    '--invocation-count-for-turbofan=40000',
  ].join(' ')}`,
  '--num-raster-threads=1',
];

let started: Promise<Browser> | undefined;

/** The browser that the test files of one worker share. It ends with the worker. */
export async function sharedBrowser(): Promise<Browser> {
  if (started && !(await started).isConnected()) started = undefined;
  started ??= launchChromium(FRUGAL);
  return started;
}

/** What the page lets tests do: leave it to the next workbook, and begin with that. */
interface Turns {
  readonly workbench: { leave(): void; begin(): Promise<void> };
  /** Drops the frames that were asked for and not drawn yet (`drawSeldom`). */
  forgetFrames(): void;
}

/** A page of the workbench, and in which context. */
interface Opened {
  readonly context: BrowserContext;
  readonly page: Page;
}

/**
 * The page that the files of one worker use one after the other: to load the spreadsheet and compile it takes many
 * times longer than to begin again in a page that has.
 */
let kept: Opened | undefined;
let isInUse = false;

/**
 * Opens an empty workbook in the workbench, nothing kept of whoever was there before, and waits until the pane is ready
 * for work.
 */
export async function openWorkbench(size: Size = {}): Promise<Workbench> {
  const { width = 1400, height = 900, pane = 400, script, clock, plain = false, longWaves = false } = size;
  const isShared = !isInUse && !script && !clock && !plain && !size.before;
  const isBegun = isShared && kept !== undefined && !kept.page.isClosed();
  const opened = isBegun ? kept! : await newPage(size);
  if (isShared) {
    kept = opened;
    isInUse = true;
  }
  const { context, page } = opened;
  const requests: string[] = [];
  const errors: string[] = [];
  page.on('request', (request) => {
    if (/^https?:/.test(request.url())) requests.push(request.url());
  });
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(String(error)));
  const close = async () => {
    if (!isShared) return context.close();
    isInUse = false;
    try {
      await clear(opened);
    } catch {
      // Whatever became of it, the next one gets another.
      kept = undefined;
      await context.close();
    }
  };
  try {
    await size.before?.(context);
    const address = addressOf(plain, longWaves);
    if (isBegun) {
      await page.setViewportSize({ width, height });
      await page.evaluate((now) => {
        history.replaceState(null, '', now);
        void (window as unknown as Turns).workbench.begin();
      }, address);
    } else await page.goto(address);
    await resizePane(page, pane);
    await size.meanwhile?.(page);
    return { page, pane: await readyPane(page), requests, errors, close };
  } catch (cause) {
    kept = undefined;
    isInUse = false;
    await context.close();
    throw new Error(`The workbench did not open. Its console said: ${errors.join('; ')}`, { cause });
  }
}

async function newPage({ width = 1400, height = 900, script, clock }: Size): Promise<Opened> {
  const browser = await sharedBrowser();
  const context = await browser.newContext({
    viewport: { width, height },
    acceptDownloads: true,
    // The certificate was made for these tests.
    ignoreHTTPSErrors: true,
  });
  context.setDefaultTimeout(PATIENCE);
  if (clock) await context.clock.install();
  else await context.addInitScript(drawSeldom);
  if (script) await context.addInitScript(script);
  return { context, page: await context.newPage() };
}

/** What a test may have asked to be told of. */
const EVENTS = ['console', 'dialog', 'download', 'filechooser', 'pageerror', 'popup', 'request'] as const;

/** Takes workbook, pane and all that was kept or asked for out of a page, so that the next one finds nothing. */
async function clear({ context, page }: Opened): Promise<void> {
  for (const event of EVENTS) page.removeAllListeners(event);
  for (const other of context.pages()) if (other !== page) await other.close();
  await context.unrouteAll();
  await page.unrouteAll();
  await context.clearPermissions();
  await page.evaluate(async () => {
    const { workbench, forgetFrames } = window as unknown as Turns;
    workbench.leave();
    // What the spreadsheet still meant to do must not fall into the turn of the next one. A page behind is never idle.
    forgetFrames();
    for (let idle = 0; idle < 3; idle++)
      await new Promise<unknown>((done) => {
        requestIdleCallback(done);
        setTimeout(done, 500);
      });
  });
  const session = await context.newCDPSession(page);
  for (const address of [inject('host'), inject('addin')])
    await session.send('Storage.clearDataForOrigin', {
      origin: new URL(address).origin,
      storageTypes: 'all',
    });
  await session.detach();
  await page.mouse.move(0, 0);
}

/**
 * The spreadsheet draws all cells in view anew at every frame after a change, which takes half of what a typed reading
 * does. Nobody looks at it here: four frames a second will do for the page, and one in two seconds for what asks for
 * a frame again and again, which is that drawing. The pane and the other windows draw as ever.
 */
function drawSeldom(): void {
  if (window !== window.top || !new URLSearchParams(location.search).has('addin')) return;
  const ask = window.requestAnimationFrame.bind(window);
  const asked = new WeakMap<FrameRequestCallback, number>();
  const waiting = new Map<number, FrameRequestCallback>();
  let last = 0;
  window.requestAnimationFrame = (draw) => {
    const times = (asked.get(draw) ?? 0) + 1;
    asked.set(draw, times);
    const id = ++last;
    waiting.set(id, draw);
    const inTime = () =>
      ask((time) => {
        if (waiting.delete(id)) draw(time);
      });
    setTimeout(inTime, times > 30 ? 2000 : 250);
    return id;
  };
  window.cancelAnimationFrame = (id) => void waiting.delete(id);
  Object.assign(window, { forgetFrames: () => waiting.clear() });
}

function addressOf(plain: boolean, longWaves: boolean): string {
  const address = new URL(inject(plain ? 'workbench' : 'host'));
  if (!plain) address.searchParams.set('addin', inject('addin'));
  if (longWaves) address.searchParams.set('waves', 'long');
  return address.href;
}

/** The pane's frame once its first step can be used. */
export async function readyPane(page: Page): Promise<Frame> {
  const element = await page.waitForSelector('#pane');
  const frame = await element.contentFrame();
  if (!frame) throw new Error('The pane has no frame');
  await frame.waitForSelector('nav[aria-label="Places"]');
  return frame;
}

/** Drags the divider until the pane is so wide. */
export async function resizePane(page: Page, width: number): Promise<void> {
  const divider = await page.locator('#divider').boundingBox();
  const split = await page.locator('.split').boundingBox();
  if (!divider || !split) throw new Error('The workbench shows no divider');
  const y = divider.y + divider.height / 2;
  await page.mouse.move(divider.x + divider.width / 2, y);
  await page.mouse.down();
  await page.mouse.move(split.x + split.width - width, y, { steps: 4 });
  await page.mouse.up();
}

/** Goes to a cell by the name box and types into it, as a person does. Ends in the cell below. */
export async function type(page: Page, address: string, text: string): Promise<void> {
  await goTo(page, address);
  await enter(page, text, 'Enter');
}

/** Types into a cell and those right of it, as a person does with the Tab key. */
export async function typeRow(page: Page, address: string, texts: readonly string[]): Promise<void> {
  await goTo(page, address);
  for (const text of texts) await enter(page, text, 'Tab');
}

/** Types into the cell that is selected, and waits until the selection has gone on. */
async function enter(page: Page, text: string, key: 'Enter' | 'Tab'): Promise<void> {
  const from = await page.locator(NAME_BOX).inputValue();
  await page.keyboard.type(text);
  if (text.startsWith('=')) await noneProposed(page);
  await page.keyboard.press(key);
  await page.waitForFunction(
    ({ box, before }) => document.querySelector<HTMLInputElement>(box)?.value !== before,
    { box: NAME_BOX, before: from },
  );
}

/**
 * Waits until the spreadsheet proposes no function: Enter would take the proposal. On a slow machine a name half typed
 * brings a list that stands until typing has rested for 0.3 s.
 */
async function noneProposed(page: Page): Promise<void> {
  await page.evaluate(() => new Promise<void>((done) => setTimeout(done, 400)));
  await page.locator('[data-u-comp="sheets-formula-editor"]').waitFor({ state: 'detached' });
}

export const NAME_BOX = '#grid [data-u-comp="defined-name"] input';

/** Selects a cell by the name box of the formula bar: an address, or a name of the sheet. */
export async function goTo(page: Page, address: string): Promise<void> {
  const box = page.locator(NAME_BOX);
  await box.click();
  await box.fill(address);
  await box.press('Enter');
  // The keyboard goes back to the sheet by itself.
  await page.waitForFunction(
    (selector) => document.activeElement !== document.querySelector(selector),
    NAME_BOX,
  );
}

/** A picture of the page for people, `.cache/<name>.png`, where the variable SHOTS asks for them: none is checked. */
export async function shot(page: Page, name: string, isWhole = false): Promise<void> {
  if (!process.env.SHOTS) return;
  const folder = join(process.cwd(), '.cache');
  await mkdir(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: isWhole });
}
