import type { Entry, JournalRecord } from './entry';
import { isSame } from './keeper/equal';

/** Entries of a sheet that can be taken back, the latest first; what was taken back already is left out. */
export function undoable(records: readonly JournalRecord[], run: string): readonly JournalRecord[] {
  const own = records.filter(({ entry }) => entry.run === run);
  const undone = new Set(own.flatMap(({ entry }) => entry.undoes ?? []));
  return own
    .filter(
      ({ entry, state }) =>
        (entry.what === 'reading' || entry.what === 'setting') &&
        entry.writes.length > 0 &&
        (state === 'waiting' || state === 'written') &&
        !undone.has(entry.id),
    )
    .reverse();
}

/** The writes that put back what the cells held before an entry; where a cell did not change, nothing. */
export function undoWrites({ entry, held }: JournalRecord): Entry['writes'] {
  return entry.writes.flatMap(({ name, row, column, value, before }, i) => {
    const back = held?.[i] ?? before;
    return isSame(back, value) ? [] : [{ name, row, column, value: back, before: value }];
  });
}
