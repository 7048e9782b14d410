import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { JournalRecord } from '../../../taskpane/capture/entry';
import { createJournal } from '../../../taskpane/capture/journal';
import type { PaneLink, ToPane, ToWindow } from '../../../taskpane/capture/messages';
import { readToPane, readToWindow } from '../../../taskpane/capture/messages';
import { createOutbox, type Outbox, REPEAT_MS } from '../../../taskpane/capture/outbox';
import { TestShelf, whiteEntry } from './scene';

let sent: ToPane[];
let say: (message: ToWindow) => void;
let outbox: Outbox;
const shelf = new TestShelf();
const link = (): PaneLink => ({
  send: (message) => sent.push(message),
  listen: (hear) => {
    say = hear;
  },
  close: () => undefined,
});
const entry = (n: number) => whiteEntry(n, 400 + n, 'Run 1');
const written = (n: number): JournalRecord => ({
  entry: entry(n),
  state: 'written',
  isAttempted: true,
  held: [null],
});
const takes = () =>
  sent.flatMap((message) =>
    message.kind === 'take' ? [`${message.entry.id}${message.isRepeat ? ' again' : ''}`] : [],
  );
const answer = () => say({ kind: 'no-task', why: '' });

beforeEach(() => {
  vi.useFakeTimers();
  shelf.kept.clear();
  sent = [];
  outbox = createOutbox(link(), createJournal(shelf, 'window'));
  outbox.start(() => undefined);
});
afterEach(() => {
  outbox.stop();
  vi.useRealTimers();
});

describe('the window’s way to the pane', () => {
  it('says that it listens until the pane answers', async () => {
    await vi.advanceTimersByTimeAsync(2 * REPEAT_MS);
    expect(sent.map(({ kind }) => kind)).toEqual(['ready', 'ready', 'ready']);
    answer();
    await vi.advanceTimersByTimeAsync(2 * REPEAT_MS);
    expect(sent).toHaveLength(3);
  });

  it('repeats what nobody has confirmed, and only that', async () => {
    answer();
    outbox.accept(entry(1));
    outbox.accept(entry(2));
    say({ kind: 'told', record: written(1), time: 0 });
    await vi.advanceTimersByTimeAsync(REPEAT_MS);
    expect(takes()).toEqual(['session-1', 'session-2', 'session-2 again']);
    expect(outbox.unconfirmed.value.map(({ entry: one }) => one.id)).toEqual(['session-2']);
  });

  it('a window that was closed with something unconfirmed tells it when it is open again', async () => {
    answer();
    outbox.accept(entry(1));
    outbox.stop();
    sent = [];
    outbox = createOutbox(link(), createJournal(shelf, 'window'));
    outbox.start(() => undefined);
    answer();
    expect(takes()).toEqual(['session-1 again']);
  });

  it('a pane that does not answer is told to the person after five seconds, and not before', async () => {
    answer();
    outbox.accept(entry(1));
    await vi.advanceTimersByTimeAsync(4000);
    expect(outbox.isSilent.value).toBe(false);
    await vi.advanceTimersByTimeAsync(REPEAT_MS);
    expect(outbox.isSilent.value).toBe(true);
    say({ kind: 'told', record: written(1), time: 0 });
    expect(outbox.isSilent.value).toBe(false);
  });

  it('nothing to tell is no silence', async () => {
    answer();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(outbox.isSilent.value).toBe(false);
  });
});

describe('messages between window and pane', () => {
  it.each([
    ['nothing', ''],
    ['somebody else’s', '{"type":"webpackOk"}'],
    [
      'an entry without an id',
      JSON.stringify({ kind: 'take', isRepeat: false, entry: { ...entry(1), id: 'x' } }),
    ],
    [
      'an entry for a cell outside',
      JSON.stringify({
        kind: 'take',
        isRepeat: false,
        entry: { ...entry(1), writes: [{ name: 'A', row: -1, column: 0, value: 1, before: null }] },
      }),
    ],
  ])('%s is not understood', (_what, text) => {
    expect(readToPane(text)).toBeUndefined();
  });

  it('an entry arrives as it was', () => {
    const message: ToPane = { kind: 'take', entry: entry(1), isRepeat: false };
    expect(readToPane(JSON.stringify(message))).toEqual(message);
    expect(readToWindow('{"kind":"trouble","words":"busy"}')).toEqual({ kind: 'trouble', words: 'busy' });
    expect(readToWindow('{"kind":"other"}')).toBeUndefined();
  });
});
