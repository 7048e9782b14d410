import { effect } from '@preact/signals';
import type { Log } from '../store/log';
import type { Entry } from './entry';
import type { CaptureService } from './service';

type What = Entry['what'];
const WORDS: Readonly<Record<What, readonly [one: string, many: string]>> = {
  reading: ['reading', 'readings'],
  undo: ['reading taken back', 'readings taken back'],
  setting: ['setting', 'settings'],
  note: ['note', 'notes'],
};

/**
 * Notes in the log what each session of capture brought into the workbook, sheet by sheet: once capture is closed
 * and nothing waits any more, not reading by reading. Returns what ends it.
 */
export function logSessions({ keeper, where }: CaptureService, log: Log): () => void {
  /** By sheet, what was written; an entry told twice is one. */
  const sheets = new Map<string, Map<string, What>>();
  const unhear = keeper.onTold(({ entry, state }) => {
    if (state !== 'written') return;
    const written = sheets.get(entry.sheet) ?? new Map<string, What>();
    sheets.set(entry.sheet, written.set(entry.id, entry.what));
  });
  const unfollow = effect(() => {
    if (where.value !== '' || keeper.waiting.value.length > 0 || sheets.size === 0) return;
    for (const [sheet, written] of sheets) void log.note('captured', sheet, summary([...written.values()]));
    sheets.clear();
  });
  return () => {
    unhear();
    unfollow();
  };
}

/** `24 readings, 1 reading taken back`. */
function summary(written: readonly What[]): string {
  const parts = (Object.keys(WORDS) as What[]).flatMap((what) => {
    const count = written.filter((each) => each === what).length;
    return count === 0 ? [] : [`${count} ${WORDS[what][count === 1 ? 0 : 1]}`];
  });
  return parts.join(', ');
}
