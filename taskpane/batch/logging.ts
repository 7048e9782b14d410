import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { createTableImport, type TableImport } from '../importing/tableimport';
import type { LogBatch, LogRow } from './logrow';
import { isClean, readLog } from './logrows';
import { LOG_MAX, type LogColumns, type LogField, type LogTable, readLogTable } from './logtable';

/** A meter's log from a file or a pasted text: taken apart, mapped, looked at, and only then written. */
export interface Logging extends TableImport<LogTable, LogColumns, LogRow> {
  readonly takesUnknown: ReadonlySignal<boolean>;
  /** Lines of the batch with readings already that clean lines would replace. */
  readonly replaced: ReadonlySignal<number>;
  map(field: LogField, column: number | undefined): void;
  begin(column: number): void;
  /** Whether the log has one reading a line, in the order of the batch. */
  follow(isSequence: boolean): void;
  /** The serial number that a log in the order of the batch begins with. */
  start(serial: string): void;
  takeUnknown(takes: boolean): void;
  /** Writes the clean lines; the others stay in the text. */
  take(): Promise<void>;
}

/** `write` puts rows onto the sheet and says whether all of them are there now. */
export function createLogging(
  batch: ReadonlySignal<LogBatch | undefined>,
  write: (rows: readonly LogRow[], source: string) => Promise<boolean>,
): Logging {
  const takesUnknown = signal(false);
  const readings = computed(() => batch.value?.readings);
  const table = createTableImport<LogTable, LogColumns, LogRow>({
    limit: { bytes: LOG_MAX, what: 'a log of 5000 units' },
    table: (text) => (readings.value ? readLogTable(text, readings.value, batch.peek()?.serials) : undefined),
    read: (found, choices) =>
      batch.value && readLog(found, batch.value, { ...choices, takesUnknown: takesUnknown.value }),
    isClean,
    linesOf: ({ lines }) => lines,
  });
  const change = (part: Partial<LogColumns>) =>
    table.setColumns({ ...(table.columns.peek() ?? { first: 1 }), ...part });

  return {
    ...table,
    takesUnknown,
    replaced: computed(() => table.clean.value.filter(({ target }) => batch.value?.filled[target!]).length),
    map: (field, column) => {
      const { [field]: _, ...rest } = table.columns.peek() ?? { first: 1 };
      table.setColumns(column === undefined ? rest : { ...rest, [field]: column });
    },
    begin: (first) => change({ first }),
    follow: (isSequence) => {
      const { sequence: _, ...rest } = table.columns.peek() ?? { first: 1 };
      const { serial: _serial, field: _field, ...alone } = rest;
      table.setColumns(
        isSequence
          ? { ...alone, sequence: table.table.peek()?.guess.sequence ?? { isBackwards: false, from: '' } }
          : { serial: 0, ...rest },
      );
    },
    start: (from) => {
      const { sequence } = table.columns.peek() ?? {};
      if (sequence) change({ sequence: { ...sequence, from } });
    },
    takeUnknown: (takes) => {
      takesUnknown.value = takes;
    },
    take: async () => {
      const rows = table.clean.peek();
      if (rows.length === 0) return;
      table.say('');
      const all = table.read.peek()?.rows ?? [];
      const { sequence } = table.columns.peek() ?? {};
      // The sheet changes as it is written, and with it which units have no readings: whose they are is settled now.
      if (sequence) change({ sequence: { ...sequence, units: all.map(({ serial }) => serial) } });
      const own = table.edition();
      if (!(await write(rows, ['Meter log', table.file.peek()].filter(Boolean).join(' ')))) return;
      const linesOf = (some: readonly LogRow[]) => some.flatMap(({ lines }) => lines).length;
      const words = (n: number) => `${n} ${n === 1 ? 'line' : 'lines'}`;
      const written = `${words(linesOf(rows))} written.`;
      if (own !== table.edition()) {
        table.say(`${written} What stands above came after them.`);
        return;
      }
      const earlier = new Set(table.taken.peek().map(({ line }) => line));
      const left = linesOf(all.filter((row) => !rows.includes(row) && !earlier.has(row.line)));
      const stay = `${words(left)} could not be taken and ${left === 1 ? 'stays' : 'stay'} above.`;
      // In a log without serial numbers the place of a line tells whose it is, so it keeps its neighbours.
      if (sequence && left > 0) table.mark(rows);
      else table.letGo(all.filter((row) => rows.includes(row) || earlier.has(row.line)));
      table.say(left > 0 ? `${written} ${stay}` : written);
    },
  };
}
