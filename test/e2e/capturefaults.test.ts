import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { isLong } from '../tools/amount';
import { openWorkbench, type Workbench } from './browser';
import { begin, type CaptureWindow, openCapture } from './capturewindow';
import { namedValues } from './cells';
import { loseReplies, onWire, refuse, secondPane, wire } from './faults';
import { build, fillForm, toMeasure, toPage } from './pane';

/*
 * Codes: learn.microsoft.com, "Excel JavaScript API error handling". The ten seconds are the longest that a busy
 * program was asked to be borne with. Projectors, places and readings are invented; no number occurs twice, so
 * that one written twice is seen.
 */
const BUSY = 'ActivityLimitReached';
const EDITING = 'InvalidOperationInCellEditMode';
const BUSY_S = 10;

let workbench: Workbench;
let sheet: string;
const FORM = { width: '2', further: { 'Black field': 'no' } };
beforeAll(async () => {
  workbench = await openWorkbench({ script: wire, clock: true });
  await fillForm(workbench.pane, { projector: 'Branch 6 (invented)', ...FORM });
  sheet = await build(workbench.pane);
});
afterAll(() => workbench.close());

const cells = (name: string, of = sheet) => namedValues(workbench.pane, of, name);
/** How often each of these numbers was really written. */
async function counts(numbers: readonly number[]): Promise<number[]> {
  const { written } = await onWire(workbench.page);
  return numbers.map((number) => written.filter((value) => value === number).length);
}
const once = (numbers: readonly number[]) => numbers.map(() => 1);

describe('a spreadsheet program that fails at its work', () => {
  let window: CaptureWindow;
  const readAll = async (numbers: readonly number[]) => {
    for (const number of numbers) await window.read(String(number));
  };
  const trouble = () => window.page.locator('.capture_trouble').textContent();
  beforeAll(async () => {
    window = await openCapture(workbench);
    await begin(window);
    await window.read('1.5');
    await window.settled();
  });
  afterAll(() => window.page.close());

  test('busy for ten seconds: readings go on, the window says why they wait, and each stands once', async () => {
    const mend = await refuse(workbench.page, BUSY);
    const numbers = [412, 430, 405, 441];
    await readAll(numbers);
    await expect
      .poll(() => window.page.locator('.Head_waits').textContent())
      .toBe('4 on the way to the workbook');
    await expect.poll(trouble).toBe('The spreadsheet program is busy. Wait a moment and try again.');
    expect(await window.asked()).toBe('Whitepoint 5, middle centre');
    const { clock } = workbench.page;
    for (let second = 0; second < BUSY_S; second++) await clock.runFor(1000);
    expect(await counts(numbers)).toEqual([0, 0, 0, 0]);
    await mend();
    await window.settled();
    expect(await cells('WhiteReadings')).toEqual([...numbers, '', '', '', '', '']);
    expect(await counts(numbers)).toEqual(once(numbers));
    expect((await onWire(workbench.page)).refused).toBeGreaterThan(5);
  });

  test('refused because a cell is being edited: the same', async () => {
    const mend = await refuse(workbench.page, EDITING);
    const numbers = [468, 437];
    await readAll(numbers);
    await expect.poll(trouble).toMatch(/^A cell is being edited/);
    await mend();
    await window.settled();
    expect((await cells('WhiteReadings')).slice(4)).toEqual([...numbers, '', '', '']);
    expect(await counts(numbers)).toEqual(once(numbers));
  });

  test('a reply lost after the reading was written: it is looked for, not written again', async () => {
    await loseReplies(workbench.page, 1);
    const numbers = [402, 428, 399];
    await readAll(numbers);
    expect(await window.asked()).toBe('Redpoint 1, top left');
    await expect.poll(async () => (await onWire(workbench.page)).lost).toBe(1);
    // Longer than an answer is waited for.
    await workbench.page.clock.runFor(11_000);
    await window.settled();
    expect((await cells('WhiteReadings')).slice(6)).toEqual(numbers);
    expect(await counts(numbers)).toEqual(once(numbers));
  });

  test('window and pane closed while it is busy: the readings come when both are back', async () => {
    const mend = await refuse(workbench.page, BUSY);
    const numbers = [101, 103];
    await readAll(numbers);
    await window.page.waitForSelector('.Head_waits');
    await window.page.close();
    // The pane is loaded anew, as when it is closed and opened again.
    await workbench.pane.evaluate(() => location.reload());
    await mend();
    await workbench.pane.waitForSelector('nav[aria-label="Places"]');
    await toMeasure(workbench.pane);
    window = await openCapture(workbench);
    await window.page.waitForSelector('#reading');
    await window.settled();
    await expect.poll(() => window.asked()).toBe('Redpoint 3, top right');
    expect((await cells('RedReadings')).slice(0, 3)).toEqual([...numbers, '']);
    expect(await counts(numbers)).toEqual(once(numbers));
  });

  test('nothing was reported as an error', () => {
    expect([...workbench.errors, ...window.errors]).toEqual([]);
  });
});

// Two hosts and two keepers on one workbook are tried every time, without windows, in excel/twopeople.
describe.runIf(isLong)('two people in one shared workbook', () => {
  const [HERS, HIS] = [
    [105, 107, 115, 109, 102, 108],
    [301, 311, 303, 315, 330, 317],
  ];

  // Two panes, two windows and two builds on one machine.
  test('read two runs at the same time, and neither disturbs the other', { timeout: 180_000 }, async () => {
    const { page, pane } = workbench;
    const other = await secondPane(page);
    await toMeasure(other);
    await fillForm(other, { projector: 'Branch 8 (invented)', ...FORM });
    const his = await build(other);
    const two = await openCapture({ page, pane: other });
    await begin(two);
    await two.read('1.2');
    // She goes on where the tests before have stopped, although his sheet is in front now.
    await toPage(pane, 'home');
    await pane.getByRole('button', { name: `Go to sheet ${sheet}` }).click();
    await pane.locator('#sheet-title', { hasText: sheet }).waitFor();
    const one = await openCapture({ page, pane });
    expect(await one.page.locator('.Head_about').textContent()).toContain('Branch 6');
    expect(await two.page.locator('.Head_about').textContent()).toContain('Branch 8');
    expect(await one.asked()).toBe('Redpoint 3, top right');
    for (let i = 0; i < 6; i++) {
      await one.read(String(HERS[i]));
      await two.read(String(HIS[i]));
    }
    for (const window of [one, two]) await window.settled();
    expect((await cells('RedReadings')).slice(2)).toEqual([...HERS, '']);
    expect(await cells('WhiteReadings', his)).toEqual([...HIS, '', '', '']);
    expect(await cells('RedReadings', his)).toEqual(Array(9).fill(''));
    expect(await counts([...HERS, ...HIS])).toEqual(once([...HERS, ...HIS]));
    expect([await one.asked(), await two.asked()]).toEqual([
      'Redpoint 9, bottom right',
      'Whitepoint 7, bottom left',
    ]);
    expect([...one.errors, ...two.errors]).toEqual([]);
  });
});
