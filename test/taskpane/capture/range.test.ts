// @vitest-environment node
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CellName } from '../../../src/sheets/names/all';
import { runPlan } from '../../../src/sheets/run';
import type { RunSetup } from '../../../src/sheets/runsetup';
import { rangeLock, shiftedRange } from '../../../taskpane/capture/range';
import type { Step } from '../../../taskpane/capture/task';
import { FakeHost } from '../fakehost';
import { SETUP } from '../scenes';
import { type Guided, guided, settled } from './guided';

describe('the range factor', () => {
  it.each([
    [1, 1, 10],
    [10, 1, 100],
    [10, -1, 1],
    [1, -1, 0.1],
    [0.1, -1, 0.01],
    [0.1, 1, 1],
    [0.001, -1, 0.001],
    [100_000, 1, 100_000],
  ] as const)('× %d shifted by %d is × %d, without dust of rounding', (from, by, to) => {
    expect(shiftedRange(from, by)).toBe(to);
  });

  it('goes up and down again without drifting away', () => {
    let factor = 1;
    for (let i = 0; i < 5; i++) factor = shiftedRange(factor, 1);
    for (let i = 0; i < 8; i++) factor = shiftedRange(factor, -1);
    expect(factor).toBe(0.001);
  });

  it('cannot be chosen where the sheet has one for several readings', () => {
    const step = { factor: 10, isRangeShared: false } as Step;
    expect(rangeLock(step, { hasOneRange: false }, true)).toBeUndefined();
    expect(rangeLock(step, { hasOneRange: true }, false)).toBeUndefined();
    expect(rangeLock(step, { hasOneRange: true }, true)).toMatch(
      /one range factor for the whole board, × 10/,
    );
    expect(rangeLock({ ...step, isRangeShared: true }, { hasOneRange: false }, false)).toMatch(/× 10/);
  });
});

let host: FakeHost;
let sheet: string;
let capture: Guided;
async function begin(setup: Partial<RunSetup> = {}): Promise<void> {
  host = new FakeHost();
  ({ sheet } = await host.build(runPlan({ ...SETUP, ...setup }, 'run00001')));
  capture = await guided(host);
}
const held = async (name: CellName) => (await host.read(sheet)).values[name]!.values.flat();

describe('switched while reading', () => {
  beforeEach(() => begin());
  afterEach(() => capture.stop());

  it('stays with the meter from reading to reading, and is written where it changed', async () => {
    capture.read('2');
    capture.press('+');
    expect(capture.store.range.value).toBe(10);
    capture.read('124');
    capture.read('125');
    expect(capture.store.range.value).toBe(10);
    capture.press('-');
    capture.read('1230');
    await settled();
    expect((await held('WhiteReadings')).slice(0, 4)).toEqual([124, 125, 1230, null]);
    expect((await held('WhiteRange')).slice(0, 4)).toEqual([10, 10, 1, 1]);
  });

  it('does not change what was typed already', () => {
    capture.read('2');
    for (const key of ['1', '2', '4', '+']) capture.press(key);
    expect([capture.store.text.value, capture.store.range.value]).toEqual(['124', 10]);
  });

  it('undo brings number and range factor back', async () => {
    capture.read('2');
    capture.press('+');
    capture.read('124');
    await settled();
    capture.press('/');
    await settled();
    expect(capture.asked()).toBe('white 1');
    expect([(await held('WhiteReadings'))[0], (await held('WhiteRange'))[0]]).toEqual([null, 1]);
  });

  it('over range is a word on the sheet, never the number 1, and the point is asked for again', async () => {
    capture.read('2');
    capture.press('*');
    await settled();
    expect(capture.asked()).toBe('white 1');
    expect((await held('WhiteReadings'))[0]).toBe('over');
    expect(capture.store.remark.value).toMatch(/Turn the meter up, press \+ to match/);
    capture.press('+');
    capture.read('124');
    await settled();
    expect([(await held('WhiteReadings'))[0], (await held('WhiteRange'))[0]]).toEqual([124, 10]);
  });

  it('the lone 1 of a display is over range too, and the way back is said', async () => {
    capture.read('2');
    capture.read('1.');
    await settled();
    expect(capture.asked()).toBe('white 1');
    expect((await held('WhiteReadings'))[0]).toBe('over');
    expect(capture.store.remark.value).toMatch(
      /^“1\.” is how many meters show over range\. If the display showed the number 1, press \/ and type 1\./,
    );
    capture.press('/');
    await settled();
    expect((await held('WhiteReadings'))[0]).toBe(null);
  });
});

describe('locked', () => {
  afterEach(() => capture.stop());

  it('a repeat is read in the range of the first time', async () => {
    await begin({ repeats: 2, ambient: 'none', colour: 'none', black: false });
    capture.press('+');
    for (let i = 0; i < 9; i++) capture.read('124');
    capture.press('-');
    expect(capture.asked()).toBe('white repeat 2 1');
    expect(capture.store.range.value).toBe(10);
    expect(capture.store.remark.value).toMatch(/A repeat is read in the range of the first time, × 10/);
    capture.read('124');
    await settled();
    expect((await held('WhiteRepeat2'))[0]).toBe(124);
    expect(await held('WhiteRange')).toEqual(Array(9).fill(10));
  });
});

describe('the unit', () => {
  beforeEach(() => begin());
  afterEach(() => capture.stop());

  it('one key before the first reading: lx to fc, on the sheet too, and back', async () => {
    capture.press('u');
    await settled();
    expect(capture.store.task.value!.unit).toBe('fc');
    expect(await held('MeterUnit')).toEqual(['fc']);
    capture.press('u');
    await settled();
    expect(await held('MeterUnit')).toEqual(['lx']);
  });

  it('once readings stand it is asked, and Enter leaves it', async () => {
    capture.read('2');
    capture.press('u');
    expect(capture.question()).toMatch(/^1 reading stands on this sheet in lx/);
    capture.press('Enter');
    await settled();
    expect([capture.question(), capture.store.task.value!.unit]).toEqual(['', 'lx']);
  });

  it('changed all the same, it is noted and no number is touched', async () => {
    capture.read('2');
    capture.read('412');
    capture.press('u');
    capture.store.answer(capture.store.asking.value!.choices[1]!);
    await settled();
    expect(await held('MeterUnit')).toEqual(['fc']);
    expect((await held('WhiteReadings'))[0]).toBe(412);
    expect(String((await held('CaptureNotes'))[0])).toMatch(
      /unit of the display changed from lx to fc after 2 readings$/,
    );
  });

  it('undo takes the switch back', async () => {
    capture.press('u');
    await settled();
    capture.press('/');
    await settled();
    expect([await held('MeterUnit'), capture.store.task.value!.unit]).toEqual([['lx'], 'lx']);
  });
});
