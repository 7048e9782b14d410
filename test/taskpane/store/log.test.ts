import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { logPlan } from '../../../src/sheets/log';
import { runPlan } from '../../../src/sheets/run';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import type { JournalRecord } from '../../../taskpane/capture/entry';
import type { CaptureService } from '../../../taskpane/capture/service';
import { logSessions } from '../../../taskpane/capture/session';
import { memoryPreferences } from '../../../taskpane/preferences';
import { createAuthor } from '../../../taskpane/store/author';
import { createLog } from '../../../taskpane/store/log';
import { loggedHost } from '../../../taskpane/store/loggedhost';
import { FakeHost } from '../fakehost';

function made(host = new FakeHost()) {
  const preferences = memoryPreferences();
  const author = createAuthor(preferences);
  const log = createLog(host, author, preferences, () => 'log1');
  return { host, author, log };
}
const details = (host: FakeHost) => host.logged.map(({ detail }) => detail);

describe('lines', () => {
  it('stand in the order of what was done, also those that come while others are written', async () => {
    const { host, log } = made();
    await Promise.all(['a', 'b', 'c', 'd'].map((detail) => log.note('built', 'Run', detail)));
    expect(details(host)).toEqual(['a', 'b', 'c', 'd']);
    await log.note('built', 'Run', 'e');
    expect(details(host)).toEqual(['a', 'b', 'c', 'd', 'e']);
    expect(log.waiting.value).toEqual([]);
  });

  it('that the program refuses come with the next one, each once', async () => {
    const { host, log } = made();
    host.failNext('appendLog', new HostError('busy', 'Busy.', 'Wait.', 'x'));
    await log.note('built', 'Run', 'a');
    expect([details(host), log.waiting.value.length, log.trouble.value]).toEqual([[], 1, 'Busy. Wait.']);
    await log.note('checked', 'Run', 'b');
    expect([details(host), log.waiting.value.length, log.trouble.value]).toEqual([['a', 'b'], 0, '']);
  });

  it('bear who did it at that time', async () => {
    const { host, author, log } = made();
    await log.note('built', 'Run', 'a');
    author.type('A. Nobody ');
    await log.note('built', 'Run', 'b');
    expect(host.logged.map(({ who }) => who)).toEqual(['', 'A. Nobody']);
  });
});

describe('a sheet that any step builds', () => {
  const plan = runPlan(
    { ...defaultRunSetup(), projector: 'Unit 7 (invented)', measuredBy: 'B. Nobody' },
    'u7',
  );
  it('is noted, and who measures is taken as who works here, unless somebody said otherwise', async () => {
    const { host, author, log } = made();
    const { sheet } = await loggedHost(host, author, log).build(plan);
    await log.flush();
    expect(host.logged).toMatchObject([{ what: 'built', sheet, who: 'B. Nobody' }]);
    author.type('A. Nobody');
    await loggedHost(host, author, log).build(plan);
    await log.flush();
    expect(host.logged.at(-1)!.who).toBe('A. Nobody');
  });

  it('is not noted when the program refused it', async () => {
    const { host, author, log } = made();
    host.failNext('build', new HostError('busy', 'Busy.', 'Wait.', 'x'));
    await expect(loggedHost(host, author, log).build(plan)).rejects.toThrow('Busy.');
    expect(host.logged).toEqual([]);
  });

  it('leaves everything else of the host as it is', async () => {
    const { host, author, log } = made();
    const logged = loggedHost(host, author, log);
    expect(logged.facts()).toEqual(host.facts());
    const { sheet } = await host.build(logPlan('l1'));
    expect((await logged.survey()).sheets.map((known) => known.sheet)).toEqual([sheet]);
  });
});

describe('a session of capture', () => {
  const record = (id: string, what: string, state: string, sheet = 'Run'): JournalRecord =>
    ({ entry: { id, what, sheet }, state, isAttempted: false }) as unknown as JournalRecord;

  it('is one line a sheet, once it is closed and nothing waits', async () => {
    const { host, log } = made();
    const where = signal<'' | 'window' | 'pane'>('');
    const waiting = signal<readonly JournalRecord[]>([]);
    let tell: (record: JournalRecord) => void = () => {};
    const keeper = {
      waiting,
      onTold: (listener: typeof tell) => {
        tell = listener;
        return () => {};
      },
    };
    const stop = logSessions({ keeper, where } as unknown as CaptureService, log);
    where.value = 'window';
    tell(record('a-1', 'reading', 'waiting'));
    tell(record('a-1', 'reading', 'written'));
    // Told again by a window that came back: the same reading.
    tell(record('a-1', 'reading', 'written'));
    tell(record('a-2', 'reading', 'written'));
    tell(record('a-3', 'undo', 'written'));
    tell(record('a-4', 'note', 'refused'));
    tell(record('a-5', 'reading', 'written', 'Run 2'));
    waiting.value = [record('a-6', 'reading', 'waiting')];
    where.value = '';
    await log.flush();
    expect(host.logged).toEqual([]);
    tell(record('a-6', 'reading', 'written'));
    waiting.value = [];
    await log.flush();
    expect(host.logged.map(({ what, sheet, detail }) => [what, sheet, detail])).toEqual([
      ['captured', 'Run', '3 readings, 1 reading taken back'],
      ['captured', 'Run 2', '1 reading'],
    ]);
    stop();
  });
});
