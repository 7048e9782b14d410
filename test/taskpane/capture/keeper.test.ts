import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { HostError } from '../../../src/excel/host';
import type { CellName } from '../../../src/sheets/names/all';
import { runPlan } from '../../../src/sheets/run';
import { NOTES } from '../../../src/sheets/run/notes';
import type { Entry, JournalRecord } from '../../../taskpane/capture/entry';
import { createJournal } from '../../../taskpane/capture/journal';
import { createKeeper, type Keeper, RETRY_MS } from '../../../taskpane/capture/keeper';
import { ANSWER_MS } from '../../../taskpane/capture/keeper/answer';
import { SETUP } from '../scenes';
import { TestShelf, whiteEntry } from './scene';
import { UnsureHost } from './unsurehost';

let host: UnsureHost;
let sheet: string;
let shelf: TestShelf;
let keeper: Keeper;

const open = (on = host, prefix = 'pane') => createKeeper(on, createJournal(shelf, prefix));
const white = (n: number, value: number, part: Partial<Entry> = {}) => whiteEntry(n, value, sheet, part);
const take = (...entries: readonly Entry[]) => {
  for (const entry of entries) keeper.take(entry, false);
};
/** What the nine cells of white hold, row by row. */
const cells = async (of = sheet) => (await host.read(of)).values.WhiteReadings!.values.flat();
const states = (records: readonly JournalRecord[]) => records.map(({ state }) => state);
/** Lets everything happen that is due within so many milliseconds. */
const pass = (ms = 0) => vi.advanceTimersByTimeAsync(ms);

beforeEach(async () => {
  vi.useFakeTimers();
  host = new UnsureHost();
  ({ sheet } = await host.build(runPlan(SETUP, 'run00001')));
  shelf = new TestShelf();
  keeper = open();
});
afterEach(() => {
  keeper.stop();
  vi.useRealTimers();
});

describe('a host that answers', () => {
  it('gets each reading in one call, in the order in which they were accepted', async () => {
    host.calls.length = 0;
    take(white(1, 412), white(2, 430), white(3, 405));
    await pass();
    expect(host.calls).toEqual([
      `writeCells ${sheet} WhiteReadings/0/0`,
      `writeCells ${sheet} WhiteReadings/0/1`,
      `writeCells ${sheet} WhiteReadings/0/2`,
    ]);
    expect(await cells()).toEqual([412, 430, 405, null, null, null, null, null, null]);
    expect(keeper.waiting.value).toEqual([]);
  });

  it('gets the same entry once, however often it is told', async () => {
    const entry = white(1, 412);
    const told: string[] = [];
    keeper.onTold(({ state }) => told.push(state));
    keeper.take(entry, false);
    keeper.take(entry, true);
    await pass();
    keeper.take(entry, true);
    await pass();
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/0 = 412`]);
    // Each telling is answered, so that the window stops repeating it.
    expect(told.at(-1)).toBe('written');
  });

  it('tells what the cell held, so that undo can bring it back', async () => {
    host.put(sheet, 'WhiteReadings', [[99]]);
    const told: JournalRecord[] = [];
    keeper.onTold((record) => told.push(record));
    take(white(1, 412));
    await pass();
    expect(told.at(-1)).toMatchObject({ state: 'written', held: [99] });
  });
});

describe('a host that is busy for ten seconds', () => {
  it.each(['busy', 'editing'] as const)(
    'answers “%s”: the readings wait, the person is told why, and each is written once',
    async (trouble) => {
      host.refuses = trouble;
      take(white(1, 412), white(2, 430));
      await pass(5000);
      take(white(3, 405));
      await pass(5000);
      expect(host.written).toEqual([]);
      expect(keeper.waiting.value).toHaveLength(3);
      expect(keeper.trouble.value).toBe(`Refused: ${trouble}. Wait.`);
      // It tries at each reading and about once a second, not all the time.
      expect(host.calls.filter((call) => call.startsWith('refused')).length).toBeLessThanOrEqual(3 + 10);
      host.refuses = undefined;
      await pass(2 * RETRY_MS);
      expect(await cells()).toEqual([412, 430, 405, null, null, null, null, null, null]);
      expect(host.written).toHaveLength(3);
      expect([keeper.waiting.value, keeper.trouble.value]).toEqual([[], '']);
    },
  );
});

describe('a host that waits behind a cell being edited', () => {
  it('is given time: the reading is written when the cell is closed, once', async () => {
    host.fates.push('held');
    take(white(1, 412), white(2, 430));
    await pass(3000);
    expect(keeper.trouble.value).toMatch(/is a cell being edited there\?/);
    expect(keeper.waiting.value).toHaveLength(2);
    host.free();
    await pass(RETRY_MS);
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/0 = 412`, `${sheet} WhiteReadings/0/1 = 430`]);
    expect(keeper.trouble.value).toBe('');
  });

  it('longer than an answer takes: what comes late is not written a second time', async () => {
    host.fates.push('held');
    take(white(1, 412));
    await pass(ANSWER_MS + RETRY_MS / 2);
    // The cell is closed just before the next try.
    host.free();
    await pass(10 * RETRY_MS);
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/0 = 412`]);
    expect(keeper.waiting.value).toEqual([]);
  });
});

describe('a reply that is lost after the reading was written', () => {
  it.each(['unanswered', 'done with error'] as const)('%s: it is not written again', async (fate) => {
    host.fates.push(fate);
    take(white(1, 412), white(2, 430));
    await pass(ANSWER_MS + 10 * RETRY_MS);
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/0 = 412`, `${sheet} WhiteReadings/0/1 = 430`]);
    expect(states(keeper.waiting.value)).toEqual([]);
  });

  it('a note that goes with it is added once too', async () => {
    // The cell first, then the note: the answer to the note is lost.
    host.fates.push('held', 'unanswered');
    take(white(1, 150, { note: '14:05:09 white, point 1: 150 × 1 kept' }));
    await pass();
    host.free();
    await pass(ANSWER_MS + 10 * RETRY_MS);
    expect((await host.read(sheet)).values[NOTES]!.values[0]![0]).toBe(
      '14:05:09 white, point 1: 150 × 1 kept',
    );
    expect(keeper.waiting.value).toEqual([]);
  });

  it('what somebody else put there meanwhile is not written over unasked', async () => {
    host.fates.push('unanswered');
    take(white(1, 412));
    await pass();
    host.put(sheet, 'WhiteReadings', [[411]]);
    await pass(ANSWER_MS + 10 * RETRY_MS);
    expect((await cells())[0]).toBe(411);
    expect(keeper.waiting.value).toMatchObject([{ state: 'conflict', held: [411] }]);
  });

  it.each([
    ['theirs', 411],
    ['mine', 412],
  ] as const)('and then %s stands by decision', async (choice, value) => {
    host.fates.push('unanswered');
    take(white(1, 412));
    await pass();
    host.put(sheet, 'WhiteReadings', [[411]]);
    await pass(ANSWER_MS + 10 * RETRY_MS);
    keeper.decide('session-1', choice);
    await pass(RETRY_MS);
    expect((await cells())[0]).toBe(value);
    expect(keeper.waiting.value).toEqual([]);
  });

  it('a second reading of the same point waits for the first to be known', async () => {
    host.fates.push('unanswered');
    take(white(1, 412), white(1, 413, { id: 'session-9', n: 9, at: 2000 }), white(2, 430, { at: 3000 }));
    await pass(ANSWER_MS + 10 * RETRY_MS);
    expect(host.written).toEqual([
      `${sheet} WhiteReadings/0/0 = 412`,
      `${sheet} WhiteReadings/0/0 = 413`,
      `${sheet} WhiteReadings/0/1 = 430`,
    ]);
  });
});

describe('a pane that is closed while readings wait', () => {
  it('writes them when it is opened again, each once', async () => {
    host.refuses = 'busy';
    take(white(1, 412), white(2, 430));
    await pass();
    keeper.stop();
    host.refuses = undefined;
    await pass(60_000);
    expect(host.written).toEqual([]);
    keeper = open();
    keeper.poke();
    await pass();
    expect(await cells()).toEqual([412, 430, null, null, null, null, null, null, null]);
    expect(host.written).toHaveLength(2);
  });

  it('in the midst of a call: it looks first, and does not write a second time', async () => {
    host.fates.push('unanswered');
    take(white(1, 412));
    await pass();
    keeper.stop();
    keeper = open();
    keeper.poke();
    await pass();
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/0 = 412`]);
    expect(keeper.waiting.value).toEqual([]);
  });
});

describe('a host that is gone', () => {
  it('is asked less and less often, and gets everything when it is back', async () => {
    host.refuses = 'unknown';
    take(white(1, 412));
    await pass(600_000);
    const asked = host.calls.filter((call) => call.startsWith('refused')).length;
    // After 1, 2, 4, 8, 16 and 32 s, so six tries in 63 s; then once a minute: about 15 in ten minutes.
    expect(asked).toBeGreaterThan(10);
    expect(asked).toBeLessThan(25);
    expect(keeper.waiting.value).toHaveLength(1);
    host.refuses = undefined;
    keeper.poke();
    await pass();
    expect(host.written).toHaveLength(1);
  });

  it('another workbook is open: the readings wait for theirs, and others go on', async () => {
    const other = (await host.build(runPlan(SETUP, 'run00002'))).sheet;
    host.remove(sheet);
    take(white(1, 412), whiteEntry(1, 99, other, { id: 'others-1', run: 'run00002' }));
    await pass(RETRY_MS);
    expect(host.written).toEqual([`${other} WhiteReadings/0/0 = 99`]);
    expect(keeper.trouble.value).toBe(`One entry waits for \u201c${sheet}\u201d, not in this workbook.`);
    expect(states(keeper.waiting.value)).toEqual(['waiting']);
  });

  it('a renamed sheet is found by its id', async () => {
    const found = host.sheets.get(sheet)!;
    host.sheets.delete(sheet);
    host.sheets.set('Hall, measured', found);
    take(white(1, 412), white(2, 430));
    await pass(4 * RETRY_MS);
    expect(await cells('Hall, measured')).toEqual([412, 430, null, null, null, null, null, null, null]);
    expect(keeper.trouble.value).toBe('');
  });

  it('a name that was deleted on a sheet that is there is refused, with the reason', async () => {
    const told: JournalRecord[] = [];
    keeper.onTold((record) => told.push(record));
    take(
      white(1, 412, { writes: [{ name: 'Gone' as CellName, row: 0, column: 0, value: 412, before: null }] }),
    );
    await pass(RETRY_MS);
    expect(told.at(-1)).toMatchObject({ state: 'refused', why: 'The sheet has no cells called Gone.' });
    take(white(2, 430));
    await pass();
    expect((await cells())[1]).toBe(430);
  });

  it('a value that the program refuses is told, and does not stand in the way of the next', async () => {
    const no = () => new HostError('refused', 'The program refused a value.', 'Report it.');
    host.failNext('writeCells', no());
    host.failNext('writeCells', no());
    const told: JournalRecord[] = [];
    keeper.onTold((record) => told.push(record));
    take(white(1, 412), white(2, 430));
    await pass(RETRY_MS);
    expect(told.find(({ state }) => state === 'refused')).toMatchObject({
      entry: { id: 'session-1' },
      why: 'The program refused a value. Report it.',
    });
    expect(await cells()).toEqual([null, 430, null, null, null, null, null, null, null]);
  });

  // Codes of Excel that come for what was done, and for what is taken the next moment.
  it.each(['refused', 'unavailable', 'missing'] as const)(
    'what is called %s once may stand all the same: it is looked at, and written if it does not',
    async (trouble) => {
      const told: JournalRecord[] = [];
      keeper.onTold((record) => told.push(record));
      host.failNext('writeCells', new HostError(trouble, 'No.', 'Report it.', 'code'));
      take(white(1, 412));
      await pass(RETRY_MS);
      expect(told.filter(({ state }) => state === 'written')).toHaveLength(1);
      // This one is written before the answer says no.
      const write = host.writeCells.bind(host);
      let isFirst = true;
      host.writeCells = async (...args) => {
        const before = await write(...args);
        if (!isFirst) return before;
        isFirst = false;
        throw new HostError(trouble, 'No.', 'Report it.', 'code');
      };
      take(white(2, 430));
      await pass(RETRY_MS);
      expect(told.filter(({ state }) => state === 'refused')).toEqual([]);
      expect((await cells()).slice(0, 3)).toEqual([412, 430, null]);
      expect(host.calls.filter((call) => call.startsWith('writeCells'))).toHaveLength(3);
    },
  );
});

describe('two people in one shared workbook', () => {
  /** Another person's pane: a keeper of its own, with its own browser's storage. */
  const secondPane = () => createKeeper(host, createJournal(new TestShelf(), 'pane'));

  it('on two runs do not disturb each other, whatever is in front', async () => {
    const other = (await host.build(runPlan(SETUP, 'run00002'))).sheet;
    const second = secondPane();
    for (let n = 1; n <= 9; n++) {
      host.activate(n % 2 === 0 ? sheet : other);
      keeper.take(white(n, 400 + n), false);
      second.take(whiteEntry(n, 500 + n, other, { id: `second-${n}`, run: 'run00002' }), false);
      await pass();
    }
    expect(await cells(sheet)).toEqual([401, 402, 403, 404, 405, 406, 407, 408, 409]);
    expect(await cells(other)).toEqual([501, 502, 503, 504, 505, 506, 507, 508, 509]);
    expect(host.written).toHaveLength(18);
    second.stop();
  });

  it('the notes of both stand on one sheet', async () => {
    const second = secondPane();
    const note = (n: number, line: string, id: string) =>
      whiteEntry(n, 400 + n, sheet, { id, writes: [], what: 'note', note: line });
    keeper.take(note(1, 'mine', 'first1-1'), false);
    second.take(note(2, 'theirs', 'second-2'), false);
    await pass(RETRY_MS);
    const notes = String((await host.read(sheet)).values[NOTES]!.values[0]![0]);
    expect(notes.split('\n').sort()).toEqual(['mine', 'theirs']);
    second.stop();
  });
});

describe('notes', () => {
  it('go behind what is there, and past the end they are refused but the reading stands', async () => {
    host.put(sheet, NOTES, [['earlier']]);
    take(white(1, 412, { note: 'kept' }));
    await pass();
    expect((await host.read(sheet)).values[NOTES]!.values[0]![0]).toBe('earlier\nkept');
    host.put(sheet, NOTES, [['x'.repeat(7999)]]);
    const told: JournalRecord[] = [];
    keeper.onTold((record) => told.push(record));
    take(white(2, 430, { note: 'kept too' }));
    await pass();
    expect((await cells())[1]).toBe(430);
    expect(told.at(-1)).toMatchObject({
      state: 'written',
      why: expect.stringContaining('notes on the sheet are full'),
    });
  });
});

describe('an entry made in another workbook', () => {
  const elsewhere = { workbook: 'https://files.test/Original.xlsx' };

  it('waits for it and is not written into a copy, which bears the same ids', async () => {
    take(white(1, 412, elsewhere), white(2, 430));
    await pass();
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/1 = 430`]);
    expect(states(keeper.waiting.value)).toEqual(['waiting']);
    expect(keeper.heldBack(keeper.waiting.value[0]!)).toBe('elsewhere');
    expect(keeper.trouble.value).toBe(
      'One entry was made in another workbook and waits for it: this one may be a copy.',
    );
    // The pane of the original, in the same browser, finds it as it was left.
    const original = new UnsureHost({ workbook: elsewhere.workbook });
    const at = (await original.build(runPlan(SETUP, 'run00001'))).sheet;
    const there = open(original);
    there.poke();
    await pass();
    expect(original.written).toEqual([`${at} WhiteReadings/0/0 = 412`]);
    expect(there.waiting.value).toEqual([]);
    there.stop();
  });

  it('goes into this one when the person says so: the file may have been moved', async () => {
    take(white(1, 412, elsewhere));
    await pass();
    keeper.decide('session-1', 'mine');
    await pass();
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/0 = 412`]);
    expect([keeper.waiting.value, keeper.trouble.value]).toEqual([[], '']);
  });

  it('is dropped when the person says so', async () => {
    take(white(1, 412, elsewhere));
    await pass();
    keeper.decide('session-1', 'theirs');
    await pass();
    expect([host.written, keeper.waiting.value]).toEqual([[], []]);
  });
});

describe('an entry for a sheet that was sealed meanwhile', () => {
  it('waits until the seal is opened, or the person says that it goes in all the same', async () => {
    keeper.stop();
    const sealed = new Set(['run00001']);
    keeper = createKeeper(host, createJournal(shelf, 'pane'), (id) => sealed.has(id));
    take(white(1, 412), white(2, 430));
    await pass();
    expect(host.written).toEqual([]);
    expect(keeper.trouble.value).toBe('2 entries wait for a sheet that is sealed.');
    keeper.decide('session-1', 'mine');
    await pass();
    expect(host.written).toEqual([`${sheet} WhiteReadings/0/0 = 412`]);
    sealed.clear();
    keeper.poke();
    await pass();
    expect(host.written).toHaveLength(2);
    expect([keeper.waiting.value, keeper.trouble.value]).toEqual([[], '']);
  });
});
