import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { decode } from '../offers/decode';
import type { Decisions } from '../parse/target';
import { cleanRows, type LogBatch, type LogRead, type LogRow, readLog } from './logrows';
import { LOG_MAX, type LogColumns, type LogField, type LogTable, readTable } from './logtable';

/** A meter's log from a file or a pasted text: taken apart, mapped, looked at, and only then written. */
export interface Logging {
  readonly text: ReadonlySignal<string>;
  /** About the file: how it was read, or why it could not be. */
  readonly note: ReadonlySignal<string>;
  /** The table, or why the text is none. */
  readonly table: ReadonlySignal<LogTable | string>;
  readonly columns: ReadonlySignal<LogColumns | undefined>;
  readonly hasHeadings: ReadonlySignal<boolean>;
  readonly takesUnknown: ReadonlySignal<boolean>;
  readonly read: ReadonlySignal<LogRead | undefined>;
  readonly clean: ReadonlySignal<readonly LogRow[]>;
  /** Lines of the batch with readings already that clean lines would replace. */
  readonly replaced: ReadonlySignal<number>;
  /** What the last write did. */
  readonly report: ReadonlySignal<string>;
  paste(text: string): void;
  choose(file: File): Promise<void>;
  map(field: LogField, column: number | undefined): void;
  begin(column: number): void;
  setHeadings(has: boolean): void;
  takeUnknown(takes: boolean): void;
  decide(decisions: Decisions): void;
  /** Writes the clean lines; the others stay in the text. */
  take(): Promise<void>;
  /** Writes nothing and forgets the text. */
  cancel(): void;
}

/** `write` puts rows onto the sheet and says whether all of them are there now. */
export function createLogging(
  batch: ReadonlySignal<LogBatch | undefined>,
  write: (rows: readonly LogRow[], source: string) => Promise<boolean>,
): Logging {
  const text = signal('');
  const note = signal('');
  const source = signal('Meter log');
  const report = signal('');
  const chosenColumns = signal<LogColumns | undefined>(undefined);
  const chosenHeadings = signal<boolean | undefined>(undefined);
  const takesUnknown = signal(false);
  const decisions = signal<Decisions>({});
  const readings = computed(() => batch.value?.readings);
  const table = computed(() => (readings.value ? readTable(text.value, readings.value) : ''));
  const columns = computed(
    () => chosenColumns.value ?? (typeof table.value === 'string' ? undefined : table.value.guess),
  );
  const hasHeadings = computed(
    () => chosenHeadings.value ?? (typeof table.value !== 'string' && table.value.hasHeadings),
  );
  const read = computed(() =>
    typeof table.value === 'string' || !batch.value || !columns.value
      ? undefined
      : readLog(table.value, batch.value, {
          columns: columns.value,
          hasHeadings: hasHeadings.value,
          decisions: decisions.value,
          takesUnknown: takesUnknown.value,
        }),
  );
  const clean = computed(() => (read.value ? cleanRows(read.value) : []));
  /** Counts the texts: a file that is still read, or rows still written, are of an earlier one. */
  let texts = 0;

  function put(next: string, about = '', from = 'Meter log'): void {
    texts++;
    text.value = next;
    note.value = about;
    source.value = from;
    report.value = '';
    chosenColumns.value = undefined;
    chosenHeadings.value = undefined;
    decisions.value = {};
  }

  return {
    text,
    note,
    table,
    columns,
    hasHeadings,
    takesUnknown,
    read,
    clean,
    replaced: computed(() => clean.value.filter(({ target }) => batch.value?.filled[target!]).length),
    report,
    paste: (next) => put(next),
    choose: async (file) => {
      if (file.size > LOG_MAX) {
        put('', `“${file.name}” is too large for a log of 5000 units.`);
        return;
      }
      const own = ++texts;
      try {
        const found = decode(new Uint8Array(await file.arrayBuffer()));
        if (own !== texts) return;
        put(
          found.text,
          [`Read “${file.name}”.`, found.note].filter(Boolean).join(' '),
          `Meter log ${file.name}`,
        );
      } catch (error) {
        if (own !== texts) return;
        // The file went away or is not readable: say so; nothing else depends on it.
        put(
          '',
          `“${file.name}” could not be read: ${error instanceof Error ? error.message : String(error)}`,
        );
      }
    },
    map: (field, column) => {
      const { [field]: _, ...rest } = columns.value ?? { first: 1 };
      chosenColumns.value = column === undefined ? rest : { ...rest, [field]: column };
    },
    begin: (column) => {
      chosenColumns.value = { ...columns.value, first: column };
    },
    setHeadings: (has) => {
      chosenHeadings.value = has;
    },
    takeUnknown: (takes) => {
      takesUnknown.value = takes;
    },
    decide: (answer) => {
      decisions.value = { ...decisions.value, ...answer };
    },
    take: async () => {
      const rows = clean.peek();
      const all = read.peek()?.rows ?? [];
      const found = table.peek();
      if (rows.length === 0 || typeof found === 'string') return;
      report.value = '';
      const own = texts;
      if (!(await write(rows, source.peek()))) return;
      const lines = (n: number) => `${n} ${n === 1 ? 'line' : 'lines'}`;
      if (own !== texts) {
        report.value = `${lines(rows.length)} written. What stands above came after them.`;
        return;
      }
      const left = all.filter((row) => !rows.includes(row));
      const head = hasHeadings.peek() ? found.lines.slice(0, 1) : [];
      const rest = left.length === 0 ? '' : [...head, ...left].map(({ cells }) => lineOf(cells)).join('\n');
      // What is left has the columns that were chosen, and the answers that were given.
      const [chosen, headings, answers] = [columns.peek(), hasHeadings.peek(), decisions.peek()];
      put(rest, '', source.peek());
      if (rest !== '') {
        chosenColumns.value = chosen;
        chosenHeadings.value = headings;
        decisions.value = answers;
      }
      report.value = `${lines(rows.length)} written.${left.length > 0 ? ` ${lines(left.length)} could not be taken and ${left.length === 1 ? 'stays' : 'stay'} above.` : ''}`;
    },
    cancel: () => {
      put('');
      report.value = 'Nothing was written.';
    },
  };
}

/** Cells as a line again, parted by tabs; a cell that holds a tab, a quote or a line end is quoted (RFC 4180). */
function lineOf(cells: readonly string[]): string {
  return cells.map((cell) => (/[\t"\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join('\t');
}
