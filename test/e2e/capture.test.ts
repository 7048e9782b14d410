import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openWorkbench, shot, type Workbench } from './browser';
import { begin, type CaptureWindow, openCapture } from './capturewindow';
import { namedValues } from './cells';
import { build, fillForm } from './pane';

/* Projector, place and readings are invented. */
/** A busy machine takes more than a second for each of the readings. */
const LONG = 180_000;

const WHITE = [412, 430, 405, 441, 468, 437, 402, 428, 399];
const part = (share: number) => WHITE.map((number) => Math.round(number * share));
const RED = part(0.24);
const GREEN = part(0.65);
const BLUE = part(0.25);

/** All cells behind a name of a sheet, row by row. */
const cells = ({ pane }: Workbench, sheet: string, name: string) => namedValues(pane, sheet, name);

describe('a full run by keyboard', () => {
  let workbench: Workbench;
  let window: CaptureWindow;
  let sheet: string;
  beforeAll(async () => {
    workbench = await openWorkbench();
    await fillForm(workbench.pane, {
      projector: 'Branch 4 (invented)',
      mode: 'Bright',
      width: '2',
      further: { 'Black field': 'no' },
    });
    sheet = await build(workbench.pane);
    window = await openCapture(workbench);
  });
  afterAll(() => workbench.close());

  test('begins with the steps before, and Enter begins the readings', async () => {
    await shot(window.page, 'capture-before');
    expect(await window.page.locator('h2').allTextContents()).toEqual(['Before you measure', 'Steps before']);
    await begin(window);
    expect(await window.asked()).toBe('Ambientreading 1, any place');
    await shot(window.page, 'capture-ambient');
  });

  test('takes 36 readings, ambient and closing reading in under 80 presses beyond the digits', {
    timeout: LONG,
  }, async () => {
    await window.read('2');
    expect(await window.asked()).toBe('Whitepoint 1, top left');
    for (const number of [...WHITE, ...RED, ...GREEN, ...BLUE]) await window.read(String(number));
    expect(await window.asked()).toBe('Last whitepoint 5, centre');
    await window.read('466');
    await window.settled();
    expect(await window.page.locator('h2').first().textContent()).toBe('All readings are taken');
    // The lumens stand in the window, as on the sheet: (mean of nine − ambient) × area.
    const white = WHITE.reduce((sum, lux) => sum + (lux - 2), 0) / 9;
    const [area] = await cells(workbench, sheet, 'ImageArea');
    const told = window.page.locator('.Done_answers div', { hasText: 'White light output' }).locator('dd');
    await expect.poll(() => told.textContent()).toMatch(/^\(\d+ ± \d+\) lm/);
    const lumens = Number(/\d+/.exec((await told.textContent())!)![0]);
    expect(Math.abs(lumens / (white * Number(area)) - 1)).toBeLessThan(0.01);
    console.info(`Key presses beyond the digits for 38 readings: ${window.presses()}`);
    expect(window.presses()).toBeLessThan(80);
    expect(await cells(workbench, sheet, 'WhiteReadings')).toEqual(WHITE);
    expect(await cells(workbench, sheet, 'RedReadings')).toEqual(RED);
    expect(await cells(workbench, sheet, 'GreenReadings')).toEqual(GREEN);
    expect(await cells(workbench, sheet, 'BlueReadings')).toEqual(BLUE);
    expect(await cells(workbench, sheet, 'AmbientReadings')).toEqual([2]);
    expect(await cells(workbench, sheet, 'LastReading')).toEqual([466]);
    await shot(window.page, 'capture-done');
  });

  test('nothing was reported as an error', () => {
    expect([...workbench.errors, ...window.errors]).toEqual([]);
  });
});

describe('the odd ways of a run', () => {
  let workbench: Workbench;
  let window: CaptureWindow;
  let sheet: string;
  const white = async () => (await cells(workbench, sheet, 'WhiteReadings')).slice(0, 9);
  const question = async () =>
    (await window.page.locator('.Question_question p').first().textContent()) ?? '';
  beforeAll(async () => {
    workbench = await openWorkbench();
    await fillForm(workbench.pane, {
      projector: 'Branch 5 (invented)',
      width: '2',
      further: { 'Display step at \u00d7 1': '0.01' },
    });
    sheet = await build(workbench.pane);
    window = await openCapture(workbench);
    await begin(window);
  });
  afterAll(() => workbench.close());

  test('U switches to foot-candles, on the sheet too', async () => {
    await window.press('u');
    await expect.poll(() => window.page.locator('#factor').textContent()).toBe('× 1 fc');
    await window.settled();
    expect(await cells(workbench, sheet, 'MeterUnit')).toEqual(['fc']);
  });

  test('a decimal comma is understood, and a thousand in doubt is asked', async () => {
    await window.read('1,234');
    expect(await question()).toBe('“1,234” can mean 1234 or 1.234. Which is it?');
    await window.press('Escape');
    await window.read('0,2');
    await window.read('41,25');
    // The comma has been proved to be the decimal mark.
    await window.read('4,123');
    expect(await question()).toMatch(/a tenth of/);
    await window.press('Escape');
    await window.read('43.01');
    await window.settled();
    expect(await white()).toEqual([41.25, 43.01, '', '', '', '', '', '', '']);
    expect(await cells(workbench, sheet, 'AmbientReadings')).toEqual([0.2]);
  });

  test('a slipped range is questioned; a key corrects it, and nothing is changed by itself', async () => {
    await window.read('4.11');
    expect(await question()).toMatch(/^4\.11 × 1 is about a tenth of its 2 neighbours/);
    await shot(window.page, 'capture-question');
    expect(await white()).toEqual([41.25, 43.01, '', '', '', '', '', '', '']);
    await window.press('+');
    expect(await window.page.locator('.Question_question').count()).toBe(0);
    await window.press('Enter');
    expect(await window.asked()).toBe('Whitepoint 4, middle left');
    await window.settled();
    expect((await white())[2]).toBe(4.11);
    expect((await cells(workbench, sheet, 'WhiteRange')).slice(0, 4)).toEqual([1, 1, 10, 1]);
    await window.press('-');
  });

  test('kept all the same, it is noted on the sheet with the reason', async () => {
    await window.read('150');
    expect(await question()).toContain('3.6');
    await window.page.keyboard.press('Tab');
    await window.page.getByLabel('Reason, for the notes').fill('sun through the door');
    await window.page.keyboard.press('Enter');
    expect(await window.asked()).toBe('Whitepoint 5, middle centre');
    await window.settled();
    const [notes] = await cells(workbench, sheet, 'CaptureNotes');
    expect(String(notes).split('\n').at(-1)).toMatch(
      /^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d white, middle left \(point 4\): 150 × 1 kept, .*: sun through the door$/,
    );
    expect(String(notes).split('\n')[0]).toContain('not confirmed: mode, zoom, keystone off, lights out');
  });

  test('undo takes the reading back and asks for it again', async () => {
    await window.press('/');
    expect(await window.asked()).toBe('Whitepoint 4, middle left');
    await window.settled();
    expect((await white())[3]).toBe('');
    await window.read('42.2');
  });

  test('over range is noted as such, and the point is asked for again in the next range', async () => {
    await window.press('*');
    expect(await window.asked()).toBe('Whitepoint 5, middle centre');
    await window.settled();
    expect((await white())[4]).toBe('over');
    await window.press('+');
    await window.read('4.68');
    await window.press('-');
    await window.settled();
    expect((await white())[4]).toBe(4.68);
    expect((await cells(workbench, sheet, 'WhiteRange'))[4]).toBe(10);
  });

  test('a lone 1 is asked about', async () => {
    await window.read('1');
    expect(await question()).toMatch(/A lone 1 .* means over range on many meters/);
    await window.press('Escape');
  });

  test('J jumps to any point by the arrow keys, and the open ones come back in turn', async () => {
    await window.press('j');
    await window.page.waitForSelector('.Jump_jump');
    await shot(window.page, 'capture-jump');
    for (const key of ['ArrowDown', 'ArrowRight', 'Enter']) await window.press(key);
    expect(await window.asked()).toBe('Whitepoint 9, bottom right');
    await window.read('39.9');
    expect(await window.asked()).toBe('Redpoint 1, top left');
    await window.press('ArrowUp');
    expect(await window.asked()).toBe('Whitepoint 9, bottom right');
    // Without waiting, as quick fingers do.
    for (const key of ['j', 'ArrowUp', 'Enter']) await window.press(key);
    expect(await window.asked()).toBe('Whitepoint 6, middle right');
    for (const number of ['43.7', '40.2', '42.8']) await window.read(number);
    expect(await window.asked()).toBe('Redpoint 1, top left');
    await window.settled();
    expect(await white()).toEqual([41.25, 43.01, 4.11, 42.2, 4.68, 43.7, 40.2, 42.8, 39.9]);
  });

  test('closed at reading 17 and opened again, 17 readings are there and the 18th is asked for', async () => {
    // Ambient, nine of white; seven of red are the 11th to the 17th.
    for (const number of ['9.9', '10.1', '9.8', '10.2', '11.2', '10.5', '9.7']) await window.read(number);
    await window.page.close();
    const closed = workbench.pane.getByRole('button', { name: 'Take readings in a window' });
    await closed.waitFor();
    window = await openCapture(workbench);
    await window.page.waitForSelector('#reading');
    expect(await window.asked()).toBe('Redpoint 8, bottom centre');
    const red = (await cells(workbench, sheet, 'RedReadings')).filter((value) => value !== '');
    expect(red).toEqual([9.9, 10.1, 9.8, 10.2, 11.2, 10.5, 9.7]);
    expect(
      (await cells(workbench, sheet, 'AmbientReadings')).length + (await white()).length + red.length,
    ).toBe(17);
  });

  test('undo reaches back over the closing of the window', async () => {
    await window.press('/');
    expect(await window.asked()).toBe('Redpoint 7, bottom left');
    await window.read('9.75');
    await window.settled();
    expect((await cells(workbench, sheet, 'RedReadings'))[6]).toBe(9.75);
  });

  test('while a cell is being edited readings queue, the window says so, and each is written once', async () => {
    const { page } = workbench;
    await page.bringToFront();
    const box = await page.locator('#grid canvas').last().boundingBox();
    await page.mouse.dblclick(box!.x + 300, box!.y + 200);
    await page.keyboard.type('half');
    await window.page.bringToFront();
    await window.read('10.3');
    await window.read('9.6');
    await window.page.waitForFunction(() =>
      document.querySelector('.capture_trouble')?.textContent?.includes('is a cell being edited'),
    );
    expect(await window.page.locator('.Head_waits').textContent()).toBe('2 on the way to the workbook');
    await page.bringToFront();
    await page.keyboard.press('Escape');
    await window.settled();
    expect((await cells(workbench, sheet, 'RedReadings')).slice(7)).toEqual([10.3, 9.6]);
  });

  test('pause, and Enter goes on', async () => {
    await window.press('p');
    expect(await window.page.locator('h2').first().textContent()).toBe('Paused');
    await window.press('Enter');
    expect(await window.asked()).toBe('Greenpoint 1, top left');
  });

  test('nothing was reported as an error', () => {
    expect([...workbench.errors, ...window.errors]).toEqual([]);
  });
});
