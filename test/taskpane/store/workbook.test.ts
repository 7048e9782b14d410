// @vitest-environment node
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { runPlan } from '../../../src/sheets/run';
import { createWorkbook, RETRY_MS, SETTLE_MS, type Workbook } from '../../../taskpane/store/workbook';
import type { FakeHost } from '../fakehost';
import { runHost, SETUP, WHITE } from '../scenes';

let host: FakeHost;
let workbook: Workbook;
const FIRST = 'Run Reading room 3, unit B Brig';
const SECOND = 'Run Reading room 3, unit B Br 2';
const white = () => workbook.reading.value?.values.WhiteReadings?.values;
const reads = () => host.calls.filter((call) => call.startsWith('read')).length;

beforeEach(async () => {
  vi.useFakeTimers();
  host = await runHost();
  workbook = createWorkbook(host);
  await workbook.start();
});
afterEach(() => {
  workbook.stop();
  vi.useRealTimers();
});

describe('following the workbook', () => {
  it('shows what stands on the sheet, and what is typed later', async () => {
    expect(workbook.shown.value).toBe(FIRST);
    expect(white()).toEqual([
      [null, null, null],
      [null, null, null],
      [null, null, null],
    ]);
    host.put(FIRST, 'WhiteReadings', WHITE);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(white()).toEqual(WHITE);
  });

  it('looks once for changes that come together', async () => {
    const before = reads();
    for (let i = 0; i < 20; i++) host.put(FIRST, 'WhiteReadings', WHITE);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(reads()).toBe(before + 1);
  });

  it('looks again for a change during a look', async () => {
    const look = workbook.look();
    host.put(FIRST, 'WhiteReadings', WHITE);
    void workbook.look();
    await look;
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(white()).toEqual(WHITE);
  });

  it('a look that is asked for shows what stands there then, also while another is under way', async () => {
    const early = workbook.look();
    // The look under way has asked which sheets there are.
    await Promise.resolve();
    await Promise.resolve();
    host.activate('Sheet1');
    await workbook.look();
    expect(workbook.survey.value?.active).toBe('Sheet1');
    await early;
  });

  it('looks now and then while changes never cease', async () => {
    const before = reads();
    for (let i = 0; i < 20; i++) {
      host.change();
      await vi.advanceTimersByTimeAsync(SETTLE_MS / 3);
    }
    expect(reads() - before).toBeGreaterThanOrEqual(4);
    expect(reads() - before).toBeLessThanOrEqual(8);
  });

  it('reads the run again only when it changed, or when it may have', async () => {
    const runs = () => host.calls.filter((call) => call.startsWith('read ')).length;
    const readsAfter = async (sheets?: readonly string[]) => {
      const before = runs();
      host.change(sheets);
      await vi.advanceTimersByTimeAsync(SETTLE_MS);
      return runs() - before;
    };
    expect(await readsAfter(['Sheet1'])).toBe(0);
    expect(await readsAfter(['Sheet1', FIRST])).toBe(1);
    expect(await readsAfter()).toBe(1);
    // One that may be anywhere is not forgotten for one that was elsewhere.
    host.change();
    expect(await readsAfter(['Sheet1'])).toBe(1);
    host.failNext('survey', new HostError('editing', 'A cell is being edited.', 'Press Enter.'));
    host.change([FIRST]);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(await readsAfter(['Sheet1'])).toBe(1);
  });

  it('unsubscribes, and does not look any more', async () => {
    expect(host.watching).toBe(1);
    workbook.stop();
    expect(host.watching).toBe(0);
    const before = reads();
    host.change();
    await vi.advanceTimersByTimeAsync(10 * RETRY_MS);
    expect(reads()).toBe(before);
  });

  it('unsubscribes even if it was stopped before the host had answered', async () => {
    const early = createWorkbook(host);
    const started = early.start();
    early.stop();
    await started;
    expect(host.watching).toBe(1);
  });
});

describe('which run is shown', () => {
  beforeEach(async () => {
    await host.build(runPlan(SETUP, 'second22'));
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
  });

  it('is the one in front', async () => {
    expect(workbook.shown.value).toBe(SECOND);
    host.activate(FIRST);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(workbook.reading.value?.sheet).toBe(FIRST);
  });

  it('stays the last one while another kind of sheet is in front', async () => {
    host.activate('Sheet1');
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(workbook.reading.value?.sheet).toBe(SECOND);
  });

  it('is the one picked, until it is gone', async () => {
    workbook.pick(FIRST);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(workbook.reading.value?.sheet).toBe(FIRST);
    host.remove(FIRST);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(workbook.reading.value?.sheet).toBe(SECOND);
  });

  it('keeps two copies of one sheet apart', async () => {
    host.put(SECOND, 'WhiteReadings', WHITE);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(white()).toEqual(WHITE);
    workbook.pick(FIRST);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    expect(
      white()
        ?.flat()
        .every((value) => value === null),
    ).toBe(true);
  });
});

describe('when the host cannot answer', () => {
  it('keeps what it knows while a cell is being edited, and looks again', async () => {
    host.put(FIRST, 'WhiteReadings', WHITE);
    await vi.advanceTimersByTimeAsync(SETTLE_MS);
    host.failNext('survey', new HostError('editing', 'A cell is being edited.', 'Press Enter.'));
    await workbook.look();
    expect(workbook.isWaiting.value).toBe(true);
    expect(white()).toEqual(WHITE);
    await vi.advanceTimersByTimeAsync(RETRY_MS);
    expect(workbook.isWaiting.value).toBe(false);
  });

  it('says in the host\u2019s plain words why a half-deleted sheet cannot be shown', async () => {
    host.failNext(
      'read',
      new HostError('missing', 'Names are missing on this sheet.', 'Build a new run.', 'ItemNotFound'),
    );
    await workbook.look();
    expect(workbook.trouble.value).toEqual({
      message: 'Names are missing on this sheet.',
      remedy: 'Build a new run.',
      detail: 'missing: ItemNotFound',
    });
    await workbook.look();
    expect(workbook.trouble.value).toBeUndefined();
  });
});
