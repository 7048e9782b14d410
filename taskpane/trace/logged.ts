import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { isLog, readLog } from '../../src/sheets/log';
import { perStore } from '../store/perstore';

/** The log as the pane shows it. */
export interface LogView {
  /** The sheet, if there is one, and its last lines, the newest first. */
  readonly shown: ReadonlySignal<{ readonly sheet?: string; readonly lines: readonly string[][] }>;
  readonly said: ReadonlySignal<string>;
  look(): Promise<void>;
}

/** More are on the sheet. */
const SHOWN = 8;

export const logOf = perStore(({ host, workbook, troubles }): LogView => {
  const lines = signal<readonly string[][]>([]);
  const said = signal('');
  const sheet = computed(() => workbook.survey.value?.sheets.find(({ kind }) => kind === 'log')?.sheet);
  return {
    shown: computed(() => ({
      ...(sheet.value === undefined ? {} : { sheet: sheet.value }),
      lines: sheet.value === undefined ? [] : lines.value,
    })),
    said,
    look: async () => {
      said.value = '';
      await workbook.look();
      const name = sheet.peek();
      if (name === undefined) {
        said.value =
          'There is no log in this workbook yet: tick “Keep a log in the workbook”, and it begins with the next thing that is done.';
        return;
      }
      const attempt = await troubles.attempt('Reading the log', () => host.book({ sheets: [name] }));
      if (!attempt.ok) return;
      const found = attempt.value.sheets[0];
      const all = found && isLog(found) ? readLog(found) : [];
      lines.value = all.slice(-SHOWN).reverse();
      said.value = `${all.length} ${all.length === 1 ? 'line' : 'lines'} in \u201c${name}\u201d${all.length > SHOWN ? `; the last ${SHOWN}:` : ':'}`;
    },
  };
});
