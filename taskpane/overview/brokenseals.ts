import { type ReadonlySignal, signal } from '@preact/signals';
import type { SealReport, SealState } from '../../src/audit/seal/verify';
import { perStore } from '../store/perstore';

/**
 * Sheets whose seal was found not to hold, by whoever compared it last: the watch over the sheet in front, the seal's
 * card, a check. That a sheet bears a seal is known at once and says nothing of that, so lists of sheets ask here too.
 */
interface BrokenSeals {
  readonly sheets: ReadonlySignal<ReadonlySet<string>>;
  tell(report: Pick<SealReport, 'sheet' | 'state'>): void;
}

const BROKEN: ReadonlySet<SealState> = new Set(['deleted', 'broken', 'unreadable']);

export const brokenSealsOf = perStore((): BrokenSeals => {
  const sheets = signal<ReadonlySet<string>>(new Set());
  return {
    sheets,
    tell: ({ sheet, state }) => {
      const known = sheets.peek();
      const isBroken = BROKEN.has(state);
      if (known.has(sheet) === isBroken) return;
      sheets.value = new Set(isBroken ? [...known, sheet] : [...known].filter((each) => each !== sheet));
    },
  };
});
