import { describe, expect, it } from 'vitest';
import type { JournalRecord } from '../../../taskpane/capture/entry';
import { createJournal, SETTLED_MAX } from '../../../taskpane/capture/journal';
import { TestShelf, whiteEntry } from './scene';

const record = (n: number, state: JournalRecord['state'] = 'waiting'): JournalRecord => ({
  entry: whiteEntry(n, 400 + n, 'Run 1'),
  state,
  isAttempted: false,
});
const ids = (records: readonly JournalRecord[]) => records.map(({ entry }) => entry.id);

describe('the journal', () => {
  it('has everything again after the window was closed, in the order in which it was accepted', () => {
    const shelf = new TestShelf();
    const before = createJournal(shelf, 'window');
    for (const n of [2, 1, 3]) before.put(record(n));
    const after = createJournal(shelf, 'window');
    expect(after.records.value).toEqual([record(1), record(2), record(3)]);
  });

  it('keeps the last state of an entry', () => {
    const shelf = new TestShelf();
    const journal = createJournal(shelf, 'window');
    journal.put(record(1));
    journal.put({ ...record(1, 'written'), held: [null] });
    expect(createJournal(shelf, 'window').records.value).toEqual([{ ...record(1, 'written'), held: [null] }]);
  });

  it('shares a storage with another window without writing over its entries', () => {
    const shelf = new TestShelf();
    const [one, two] = [createJournal(shelf, 'window'), createJournal(shelf, 'window')];
    one.put(record(1));
    two.put(record(2));
    one.put(record(3));
    expect(ids(createJournal(shelf, 'window').records.value)).toEqual([
      'session-1',
      'session-2',
      'session-3',
    ]);
    expect(ids(two.records.value)).toEqual(['session-2']);
    two.reload();
    expect(ids(two.records.value)).toEqual(['session-1', 'session-2', 'session-3']);
  });

  it('hears of an entry that another window has settled, and never unsettles one', () => {
    const shelf = new TestShelf();
    const [one, two] = [createJournal(shelf, 'window'), createJournal(shelf, 'window')];
    one.put(record(1));
    two.reload();
    two.put(record(1, 'written'));
    one.reload();
    expect(one.get('session-1')!.state).toBe('written');
    shelf.setItem([...shelf.kept.keys()][0]!, JSON.stringify(record(1)));
    one.reload();
    expect(one.get('session-1')!.state).toBe('written');
  });

  it('does not mix with the pane’s journal in the same storage', () => {
    const shelf = new TestShelf();
    createJournal(shelf, 'pane').put(record(1));
    expect(createJournal(shelf, 'window').records.value).toEqual([]);
  });

  it('forgets the oldest of what stands in the workbook, and nothing that waits', () => {
    const shelf = new TestShelf();
    const journal = createJournal(shelf, 'window');
    journal.put(record(1));
    for (let n = 2; n <= SETTLED_MAX + 3; n++) journal.put(record(n, 'written'));
    const kept = ids(createJournal(shelf, 'window').records.value);
    expect(kept).toHaveLength(SETTLED_MAX + 1);
    expect(kept.slice(0, 2)).toEqual(['session-1', 'session-4']);
  });

  it.each([
    ['no text of ours', 'not json'],
    ['cut off', '{"entry":{"id":"session-1"'],
    ['of a newer layout', JSON.stringify({ ...record(1), entry: { ...record(1).entry, version: 2 } })],
    ['with a cell that is none', JSON.stringify({ ...record(1), held: [{ shady: true }] })],
  ])('leaves what it cannot read where it is: %s', (_what, text) => {
    const shelf = new TestShelf();
    createJournal(shelf, 'window').put(record(1));
    const [key] = [...shelf.kept.keys()];
    shelf.setItem(key!, text);
    expect(createJournal(shelf, 'window').records.value).toEqual([]);
    expect(shelf.getItem(key!)).toBe(text);
  });

  it('a full storage is told, and the entries last as long as the window', () => {
    const shelf = new TestShelf();
    const journal = createJournal(shelf, 'window');
    shelf.isFull = true;
    journal.put(record(1));
    expect(journal.isKept.value).toBe(false);
    expect(ids(journal.records.value)).toEqual(['session-1']);
  });

  it('a browser that keeps nothing is told at once', () => {
    expect(createJournal(undefined, 'window').isKept.value).toBe(false);
  });
});
