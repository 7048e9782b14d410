import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Line } from '../../src/csv/split';
import { isRefusal, type Refusal, type Table } from '../../src/csv/table';
import type { Question } from '../parse/block';
import type { DecimalMark } from '../parse/number';
import type { Decisions } from '../parse/target';
import type { Said } from '../store/said';
import { createSource, type Source } from './source';

/** A table of which is known what its columns are, as far as it tells. */
export interface ImportTable<C> extends Table {
  /** True where the first line looks like headings. */
  readonly hasHeadings: boolean;
  readonly guess: C;
}

/** What a person said about a table, or what it tells by itself. */
export interface Choices<C> {
  readonly columns: C;
  readonly hasHeadings: boolean;
  readonly decisions: Decisions;
}

/** The lines of a table as understood. A line is taken whole or not at all. */
export interface ReadLines<R> {
  readonly rows: readonly R[];
  /** Nothing can be taken before they are answered. */
  readonly questions: readonly Question[];
  /** Which decimal mark the numbers prove, where that matters. */
  readonly proof?: { readonly mark: DecimalMark; readonly example: string };
  /** Why nothing can be read at all. */
  readonly objection: string;
}

/** A table from a file or a pasted text: taken apart, its columns named, looked at, and only then taken. */
export interface TableImport<T extends ImportTable<C>, C, R> extends Source {
  readonly table: ReadonlySignal<T | undefined>;
  /** Why the text is no table; empty where it is one, or where there is none. */
  readonly refusal: ReadonlySignal<string>;
  readonly columns: ReadonlySignal<C | undefined>;
  readonly hasHeadings: ReadonlySignal<boolean>;
  readonly read: ReadonlySignal<ReadLines<R> | undefined>;
  /** Rows that can be taken and were not yet. */
  readonly clean: ReadonlySignal<readonly R[]>;
  /** Rows that were taken and whose lines are still kept. */
  readonly taken: ReadonlySignal<readonly R[]>;
  /** What the last action did. */
  readonly report: ReadonlySignal<Said>;
  setColumns(columns: C): void;
  setHeadings(has: boolean): void;
  decide(decisions: Decisions): void;
  say(words: string): void;
  /** Rows stand where they belong for now; their lines stay until they are let go. */
  mark(rows: readonly R[]): void;
  unmark(): void;
  /** Rows are safe: the text keeps its other lines, with what was said of them. */
  letGo(rows: readonly R[]): void;
  /** Forgets the text. */
  cancel(words: Said): void;
}

export interface ImportOptions<T extends ImportTable<C>, C, R> {
  readonly limit: { readonly bytes: number; readonly what: string };
  /** Text → table. */
  readonly table: (text: string) => T | Refusal | undefined;
  readonly read: (table: T, choices: Choices<C>) => ReadLines<R> | undefined;
  readonly isClean: (row: R) => boolean;
  /** The lines of the table that a row is from. */
  readonly linesOf: (row: R) => readonly Line[];
}

export function createTableImport<T extends ImportTable<C>, C, R>(
  options: ImportOptions<T, C, R>,
): TableImport<T, C, R> {
  const report = signal<Said>('');
  const chosenColumns = signal<C | undefined>(undefined);
  const chosenHeadings = signal<boolean | undefined>(undefined);
  const decisions = signal<Decisions>({});
  /** Lines that were taken, by what stands in them: they stay the same while others are corrected. */
  const marked = signal<ReadonlySet<string>>(new Set());
  const source = createSource(options.limit, (next, before) => {
    report.value = '';
    // Answers belong to the text they were asked about, also while a line of it is corrected.
    if (isEdit(before, next)) return;
    chosenColumns.value = undefined;
    chosenHeadings.value = undefined;
    decisions.value = {};
    marked.value = new Set();
  });
  const found = computed(() => options.table(source.text.value));
  const table = computed(() => (isRefusal(found.value) ? undefined : found.value));
  const columns = computed(() => chosenColumns.value ?? table.value?.guess);
  const hasHeadings = computed(() => chosenHeadings.value ?? table.value?.hasHeadings ?? false);
  const read = computed(() =>
    table.value && columns.value !== undefined
      ? options.read(table.value, {
          columns: columns.value,
          hasHeadings: hasHeadings.value,
          decisions: decisions.value,
        })
      : undefined,
  );
  const isMarked = (row: R) => options.linesOf(row).every((line) => marked.value.has(line.raw));
  const taken = computed(() => (marked.value.size === 0 ? [] : (read.value?.rows ?? []).filter(isMarked)));
  const clean = computed(() => {
    if (read.value?.objection !== '' || read.value.questions.length > 0) return [];
    return read.value.rows.filter((row) => options.isClean(row) && !isMarked(row));
  });

  return {
    ...source,
    table,
    refusal: computed(() => (isRefusal(found.value) ? found.value.message : '')),
    columns,
    hasHeadings,
    read,
    clean,
    taken,
    report,
    setColumns: (next) => {
      chosenColumns.value = next;
    },
    setHeadings: (has) => {
      chosenHeadings.value = has;
    },
    decide: (answer) => {
      decisions.value = { ...decisions.value, ...answer };
    },
    say: (words) => {
      report.value = words;
    },
    mark: (rows) => {
      marked.value = new Set([...marked.value, ...rows.flatMap(options.linesOf).map(({ raw }) => raw)]);
    },
    unmark: () => {
      marked.value = new Set();
    },
    letGo: (rows) => {
      if (!table.peek()) return;
      const gone = new Set(rows.flatMap(options.linesOf).map(({ line }) => line));
      const { lines } = table.peek()!;
      const [chosen, headings, answers] = [columns.peek(), hasHeadings.peek(), decisions.peek()];
      const words = report.peek();
      const head = headings ? lines.slice(0, 1) : [];
      const left = lines.slice(head.length).filter(({ line }) => !gone.has(line));
      source.keep(left.length === 0 ? '' : [...head, ...left].map(({ raw }) => raw).join('\n'));
      marked.value = new Set();
      report.value = words;
      if (left.length === 0) return;
      chosenColumns.value = chosen;
      chosenHeadings.value = headings;
      decisions.value = answers;
    },
    cancel: (words) => {
      source.paste('');
      marked.value = new Set();
      report.value = words;
    },
  };
}

/** Whether a text was typed on in rather than replaced: most of it still stands as it was. */
function isEdit(before: string, after: string): boolean {
  const shorter = Math.min(before.length, after.length);
  let same = 0;
  while (same < shorter && before[same] === after[same]) same++;
  let end = 0;
  while (end < shorter - same && before.at(-1 - end) === after.at(-1 - end)) end++;
  return 2 * (same + end) > Math.max(before.length, after.length);
}
