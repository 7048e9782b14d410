import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { CellName } from '../../../src/sheets/names/all';
import { runPlan } from '../../../src/sheets/run';
import { NOTES } from '../../../src/sheets/run/notes';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import { spotPlan } from '../../../src/sheets/spot';
import { createJournal } from '../../../taskpane/capture/journal';
import { GRACE_MS } from '../../../taskpane/capture/service';
import { SETUP } from '../scenes';
import { type Guided, guided, settled } from './guided';
import { TestShelf, whiteEntry } from './scene';
import { UnsureHost } from './unsurehost';

let host: UnsureHost;
let sheet: string;
let shelf: TestShelf;
let capture: Guided;
const held = async (name: CellName, of = sheet) => (await host.read(of)).values[name]!.values.flat();
const notes = async () => String((await held(NOTES))[0] ?? '').split('\n');

beforeEach(async () => {
  host = new UnsureHost();
  ({ sheet } = await host.build(runPlan({ ...SETUP, black: false }, 'run00001')));
  shelf = new TestShelf();
});
afterEach(() => capture.stop());

const WHITE = ['412', '430', '405', '441', '468', '437', '402', '428', '399'];

describe('a reading', () => {
  beforeEach(async () => {
    capture = await guided(host, { shelf });
    capture.read('2');
  });

  it('stands in the workbook after one call to it', async () => {
    host.calls.length = 0;
    capture.read('412');
    await settled();
    expect(host.calls.filter((call) => call.startsWith('write'))).toEqual([
      `writeCells ${sheet} WhiteReadings/0/0`,
    ]);
    expect(capture.store.waiting.value).toBe(0);
  });

  it('is said, and so is the next one', () => {
    capture.read('412');
    expect(capture.store.said.value).toMatch(/^412 × 1 taken\. .*White, point 2, top centre\./);
  });

  it('nothing typed is no reading: the arrow down leaves the point open', () => {
    capture.press('Enter');
    expect(capture.store.remark.value).toMatch(/^Type the number on the display/);
    expect(capture.asked()).toBe('white 1');
    capture.press('ArrowDown');
    expect(capture.asked()).toBe('white 2');
  });

  it('what is left open is asked for again when the others are taken, the closing reading last', () => {
    capture.press('ArrowDown');
    for (const number of WHITE.slice(1)) capture.read(number);
    expect(capture.asked()).toBe('red 1');
    for (let i = 0; i < 9; i++) capture.read('100');
    for (let i = 0; i < 9; i++) capture.read('260');
    for (let i = 0; i < 9; i++) capture.read('105');
    expect(capture.asked()).toBe('white 1');
    capture.read('412');
    expect(capture.asked()).toBe('last white 5');
    capture.read('466');
    expect(capture.store.stage.value).toBe('done');
  });

  it('undo, again and again, goes back one reading each, and to nothing in the end', async () => {
    capture.read('412');
    capture.read('430');
    await settled();
    for (const asked of ['white 2', 'white 1', 'ambient 1']) {
      capture.press('/');
      expect(capture.asked()).toBe(asked);
    }
    await settled();
    expect(await held('WhiteReadings')).toEqual(Array(9).fill(null));
    expect(await held('AmbientReadings')).toEqual([null]);
    capture.press('/');
    expect(capture.store.remark.value).toBe('There is nothing to undo.');
  });

  it('read again replaces the number; undo brings the first one back', async () => {
    capture.read('412');
    capture.press('ArrowUp');
    capture.read('413');
    await settled();
    expect((await held('WhiteReadings'))[0]).toBe(413);
    expect(capture.asked()).toBe('white 2');
    capture.press('/');
    await settled();
    expect((await held('WhiteReadings'))[0]).toBe(412);
  });

  it('a doubt waits for an answer and changes nothing; with a reason it is kept and noted', async () => {
    capture.read('412');
    capture.read('43');
    expect(capture.question()).toMatch(/^43 × 1 is about a tenth of the one before/);
    expect(capture.asked()).toBe('white 2');
    capture.store.answer(capture.store.asking.value!.choices[0]!, 'lamp\n flickers ');
    await settled();
    expect((await held('WhiteReadings')).slice(0, 2)).toEqual([412, 43]);
    expect((await notes()).at(-1)).toMatch(
      /^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d white, top centre \(point 2\): 43 × 1 kept, about a tenth of its neighbours: lamp flickers$/,
    );
  });

  it('typed anew, a doubt is gone without a trace', async () => {
    capture.read('412');
    capture.read('43');
    capture.press('Escape');
    expect([capture.question(), capture.store.text.value]).toEqual(['', '']);
    capture.read('430');
    await settled();
    expect(await notes()).toHaveLength(1);
  });

  it('sound and voice are there when wanted, and say doubts', async () => {
    expect(capture.heard).toEqual([]);
    capture.press('s');
    capture.press('v');
    capture.read('412');
    capture.read('43');
    expect(capture.heard).toEqual([
      'taken',
      expect.stringContaining('White, point 2, top centre.'),
      'doubtful',
      expect.stringContaining('about a tenth'),
    ]);
  });

  it('a note of one’s own stands with the time and the point', async () => {
    capture.store.note('  cloud over the   window ');
    await settled();
    expect((await notes()).at(-1)).toMatch(/ white, top left \(point 1\): cloud over the window$/);
  });

  it('text that looks like a formula stays text', async () => {
    capture.store.note('=1+1');
    await settled();
    expect((await notes()).at(-1)).toMatch(/: =1\+1$/);
  });
});

describe('closed in the midst', () => {
  it('and opened again, it asks for the first open reading, with the meter’s range as it was', async () => {
    capture = await guided(host, { shelf });
    capture.read('2');
    capture.press('+');
    for (const number of ['41', '430', '405']) {
      capture.read(number);
      if (capture.question()) capture.press('Enter');
    }
    await settled();
    capture.stop();
    capture = await guided(host, { shelf, session: 'again1' });
    expect([capture.asked(), capture.store.range.value]).toEqual(['white 4', 10]);
    capture.press('/');
    expect(capture.asked()).toBe('white 3');
  });

  it('with the host busy: the readings are shown as taken, and are written when it is free, once', async () => {
    capture = await guided(host, { shelf });
    capture.read('2');
    await settled();
    host.written.length = 0;
    host.refuses = 'editing';
    for (const number of WHITE.slice(0, 3)) capture.read(number);
    await settled();
    expect(capture.store.waiting.value).toBe(3);
    expect(capture.store.trouble.value).toContain('Refused: editing.');
    capture.stop();
    host.refuses = undefined;
    capture = await guided(host, { shelf, session: 'again1' });
    await settled();
    expect([capture.asked(), capture.store.waiting.value]).toEqual(['white 4', 0]);
    expect(host.written).toEqual(WHITE.slice(0, 3).map((n, i) => `${sheet} WhiteReadings/0/${i} = ${n}`));
  });

  it('with the pane gone: what only the window’s journal has is written by the next pane', async () => {
    createJournal(shelf, 'window').put({
      entry: whiteEntry(1, 412, sheet, { id: 'before1-1' }),
      state: 'waiting',
      isAttempted: false,
    });
    capture = await guided(host, { shelf });
    await settled();
    expect((await held('WhiteReadings'))[0]).toBe(412);
    expect(capture.store.waiting.value).toBe(0);
    expect(capture.asked()).toBe('ambient 1');
  });
});

describe('the pane of another workbook in the same browser', () => {
  /** Two panes over one storage; the second has no window. */
  async function beside() {
    vi.useFakeTimers();
    capture = await guided(host, { shelf, now: Date.now });
    const other = await guided(new UnsureHost(), { shelf, session: 'other1', now: Date.now });
    other.service.close();
    return other;
  }
  /** The browser tells the other windows that something was put into the storage. */
  const tell = async () => {
    window.dispatchEvent(new Event('storage'));
    await settled();
  };
  afterEach(() => vi.useRealTimers());

  it('leaves readings of a live window to their own pane', async () => {
    const other = await beside();
    capture.read('2');
    await tell();
    await vi.advanceTimersByTimeAsync(2 * GRACE_MS);
    expect(other.service.keeper.waiting.value).toEqual([]);
    expect(await held('AmbientReadings')).toEqual([2]);
    other.stop();
  });

  it('says that they wait when nobody has taken them, and no more once they are written', async () => {
    const other = await beside();
    host.refuses = 'busy';
    capture.read('2');
    await tell();
    await vi.advanceTimersByTimeAsync(2 * GRACE_MS);
    expect(other.service.keeper.trouble.value).toMatch(/^One entry waits for .*, not in this workbook\.$/);
    host.refuses = undefined;
    await vi.advanceTimersByTimeAsync(2000);
    await tell();
    expect(other.service.keeper.waiting.value).toEqual([]);
    expect(host.written.filter((line) => line.includes('Ambient'))).toHaveLength(1);
    other.stop();
  });
});

describe('somebody else at the same sheet', () => {
  it('changes a cell that this window is about to write: it is written, told, and undo brings theirs back', async () => {
    capture = await guided(host, { shelf });
    capture.read('2');
    await settled();
    // Put there without telling, as between two looks of the pane.
    const at = (await host.read(sheet)).values.WhiteReadings!.address.split(':')[0]!;
    host.sheets.get(sheet)!.changed.set(at, { value: 411 });
    capture.read('412');
    await settled();
    expect((await held('WhiteReadings'))[0]).toBe(412);
    expect(capture.store.remark.value).toMatch(
      /was written over 411, which somebody else had put there just before/,
    );
    capture.press('/');
    await settled();
    expect((await held('WhiteReadings'))[0]).toBe(411);
  });

  it('reads the same point first: the window goes on with the open ones', async () => {
    capture = await guided(host, { shelf });
    capture.read('2');
    await settled();
    host.put(
      sheet,
      'WhiteReadings',
      [['', 430]].map((row) => row.map((cell) => cell || null)),
    );
    await vi.waitFor(() => expect(capture.store.left.value).toBe(36));
    capture.read('412');
    expect(capture.asked()).toBe('white 3');
  });
});

describe('a spot check', () => {
  it('goes from unit to unit, and says so', async () => {
    const meter = defaultRunSetup().meter;
    const plan = spotPlan(
      {
        title: '',
        units: ['Branch A', 'Branch B'],
        reference: 'first',
        ambient: false,
        place: 'Workshop (invented)',
        measuredBy: '',
        date: '',
        meter,
      },
      'spot0001',
    );
    const { sheet: spot } = await host.build(plan);
    host.activate(spot);
    capture = await guided(host, { shelf });
    expect(capture.asked()).toBe('Branch A, white 5');
    for (const number of ['1251', '94', '310', '33']) capture.read(number);
    expect(capture.asked()).toBe('Branch B, white 5');
    expect(capture.store.remark.value).toContain('Branch B now. Same place, same size of image.');
    await settled();
    expect((await held('GreenReadings', spot))[0]).toBe(310);
  });
});
