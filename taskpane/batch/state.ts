import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { serialKey } from '../../src/procurement/lot/serials';
import { newRunOf } from '../run/newrun';
import type { Store } from '../store';
import { perStore } from '../store/perstore';
import { goesWith, type Said } from '../store/said';
import { createLogging, type Logging } from './logging';
import { createLongActions, type LongActions } from './longactions';
import { createNewBatch, type NewBatch } from './making';
import { createShownBatch, type ShownBatch } from './shownbatch';
import { createUnit, type UnitState } from './unit';
import { writeLog } from './writelog';

/** The batch: a new one, the one that is shown, a meter's log into it, and its units one by one. */
export interface BatchStep extends NewBatch, ShownBatch, UnitState, Pick<LongActions, 'progress' | 'stop'> {
  /** Opens the unit of a serial number on any batch as a run. */
  openRunOf(sheet: string, serial: string): Promise<void>;
  /** What the last long action came to. */
  readonly report: ReadonlySignal<Said>;
  readonly logging: Logging;
}

/** The state outlives looking at another page. */
export const batchOf = perStore(createBatch);

function createBatch(store: Store): BatchStep {
  const report = signal<Said>('');
  const tell = (words: Said) => {
    report.value = words;
  };
  const { run, progress, stop } = createLongActions(store.troubles);
  const shown = createShownBatch(store);
  const unit = createUnit(store, shown.view);
  const made = createNewBatch(store, { run, progress, stop }, tell, shown.pick);
  goesWith(report, () => [made.form.texts.value, newRunOf(store).form.texts.value]);
  const logging = createLogging(
    computed(() => shown.view.value?.log),
    async (rows, source) => {
      const into = shown.view.peek();
      if (!into) return false;
      tell('');
      const done = await run('Writing the log', (course) => writeLog(store, into, rows, source, course));
      await store.workbook.look();
      return done.ok;
    },
  );

  return {
    ...made,
    ...shown,
    ...unit,
    progress,
    stop,
    report,
    logging,
    openRunOf: async (sheet, serial) => {
      const found = await shown.viewOf(sheet);
      const line = found?.units.find((one) => serialKey(one.serial) === serialKey(serial));
      if (found && line) await unit.openRun(found, line);
    },
    lookAt: (line) => {
      tell('');
      unit.lookAt(line);
    },
  };
}
