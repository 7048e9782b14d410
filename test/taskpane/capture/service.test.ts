import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ChildEvents, Opening } from '../../../src/excel/window';
import { runPlan } from '../../../src/sheets/run';
import { type CaptureService, createCaptureService } from '../../../taskpane/capture/service';
import { createTroubles } from '../../../taskpane/store/trouble';
import { createWorkbook, type Workbook } from '../../../taskpane/store/workbook';
import { FakeHost } from '../fakehost';
import { SETUP } from '../scenes';
import { settled } from './guided';
import { TestShelf, whiteEntry } from './scene';

let host: FakeHost;
let workbook: Workbook;
let service: CaptureService;
let opening: Opening;
let events: ChildEvents;
/** What the pane told the window, by kind. */
let told: string[];

const build = async (projector: string, id: string) => {
  const { sheet } = await host.build(runPlan({ ...SETUP, projector, mode: '' }, id));
  await workbook.look();
  return sheet;
};
const bring = async (sheet: string) => {
  host.activate(sheet);
  await workbook.look();
};
const target = () => service.target.value?.sheet;

beforeEach(async () => {
  host = new FakeHost();
  workbook = createWorkbook(host);
  await workbook.start();
  told = [];
  opening = {
    ok: true,
    window: { say: (text) => told.push((JSON.parse(text) as { kind: string }).kind), close: () => undefined },
  };
  service = createCaptureService(host, workbook, createTroubles(), {
    shelf: new TestShelf(),
    openWindow: async (_page, _size, heard) => {
      events = heard;
      return opening;
    },
  });
  service.start();
});
afterEach(() => {
  service.stop();
  workbook.stop();
});

describe('the sheet that is captured', () => {
  it('is none without a sheet for readings', () => {
    expect(target()).toBeUndefined();
  });

  it('is the one in front, so a fresh one once it is built', async () => {
    const first = await build('Unit A', 'run00001');
    expect(target()).toBe(first);
    const second = await build('Unit B', 'run00002');
    expect(target()).toBe(second);
    await bring(first);
    expect(target()).toBe(first);
    await bring('Sheet1');
    expect(target()).toBe(first);
  });

  it('can be chosen, until another one is brought to the front', async () => {
    const first = await build('Unit A', 'run00001');
    const second = await build('Unit B', 'run00002');
    service.pick(first);
    expect(target()).toBe(first);
    await bring('Sheet1');
    expect(target()).toBe(first);
    await bring(second);
    expect(target()).toBe(second);
  });

  it('stays while the window is open, whatever is in front, and when it is opened again', async () => {
    const first = await build('Unit A', 'run00001');
    await service.open();
    const second = await build('Unit B', 'run00002');
    expect(target()).toBe(first);
    events.closed({ why: 'person', code: 12006 });
    expect([service.where.value, target()]).toEqual(['', first]);
    await bring(first);
    await bring(second);
    expect(target()).toBe(second);
  });

  it('stays while capture runs in the pane too', async () => {
    const first = await build('Unit A', 'run00001');
    service.openHere();
    await build('Unit B', 'run00002');
    expect(target()).toBe(first);
  });

  it('is found again when it is renamed meanwhile, and not replaced when it is deleted', async () => {
    const first = await build('Unit A', 'run00001');
    await build('Unit B', 'run00002');
    service.pick(first);
    await service.open();
    const found = host.sheets.get(first)!;
    host.sheets.delete(first);
    host.sheets.set('Hall', found);
    await workbook.look();
    expect(target()).toBe('Hall');
    host.remove('Hall');
    await workbook.look();
    expect(target()).toBeUndefined();
  });
});

describe('where it opens', () => {
  beforeEach(() => build('Unit A', 'run00001'));

  it('in a window, which hears of its sheet when it says that it is there', async () => {
    await service.open();
    expect(service.where.value).toBe('window');
    events.heard('{"kind":"ready"}');
    await settled();
    expect(told).toContain('task');
  });

  it.each([
    ['blocked', /The window was not allowed/],
    ['open', /Another window of this add-in is open/],
    ['unavailable', /cannot open a window/],
    ['failed', /did not open/],
  ] as const)('in the pane when the window is %s, with the reason', async (why, words) => {
    opening = { ok: false, why, code: 0 };
    await service.open();
    expect(service.where.value).toBe('pane');
    expect(service.hint.value).toMatch(words);
    service.close();
    expect([service.where.value, service.hint.value]).toEqual(['', '']);
  });

  it('what the window says is taken only if it is understood', async () => {
    await service.open();
    events.heard('{"kind":"take","entry":{}}');
    events.heard('nonsense');
    const entry = whiteEntry(1, 412, target()!);
    events.heard(JSON.stringify({ kind: 'take', isRepeat: false, entry }));
    await settled();
    expect(host.calls.filter((call) => call.startsWith('write'))).toEqual([
      `writeCells ${target()} WhiteReadings/0/0`,
    ]);
    expect(told).toContain('told');
  });
});

describe('a window that does not come', () => {
  it.each([
    ['blocked', 12009, /^The window was not allowed, .* \(12009\)$/],
    ['untrusted', 12004, /does not trust the address .* stand in the manifest\. \(12004\)$/],
    ['failed', 5001, /^The window did not open/],
  ] as const)(
    'is said why, with the number of it, and capture runs in the pane: %s',
    async (why, code, words) => {
      await build('Unit A', 'run00001');
      opening = { ok: false, why, code };
      await service.open();
      expect([service.where.value, service.hint.value]).toEqual(['pane', expect.stringMatching(words)]);
    },
  );

  it('or cannot show its page is no window that somebody closed', async () => {
    await build('Unit A', 'run00001');
    await service.open();
    events.closed({ why: 'lost', code: 12002 });
    expect([service.where.value, service.hint.value]).toEqual([
      'pane',
      expect.stringMatching(/could not show its page, .* \(12002\)$/),
    ]);
  });
});
