import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type CheckReport, check } from '../../src/audit/check/check';
import type { Finding } from '../../src/audit/check/finding';
import { summary } from '../../src/audit/check/text';
import type { Book, BookSheet } from '../../src/sheets/book';
import { count } from '../parse/block';
import { perStore } from '../store/perstore';
import { auditedBook } from './auditedbook';
import { repair } from './repair';

export interface CheckProgress {
  /** Steps: each sheet is read, then checked. */
  readonly done: number;
  readonly of: number;
  readonly words: string;
}

/** The check of one or all of our sheets, and the repairs a person asks for. */
export interface Checking {
  /** The sheet in front, if it is one of ours. */
  readonly front: ReadonlySignal<string | undefined>;
  readonly progress: ReadonlySignal<CheckProgress | undefined>;
  readonly report: ReadonlySignal<CheckReport | undefined>;
  /** What the last check or repair came to. */
  readonly said: ReadonlySignal<string>;
  checkFront(): Promise<void>;
  checkAll(): Promise<void>;
  cancel(): void;
  /** Does what one finding asks for, then checks again. */
  repair(finding: Finding): Promise<void>;
}

export const checkingOf = perStore(({ host, workbook, troubles }): Checking => {
  const progress = signal<CheckProgress | undefined>(undefined);
  const report = signal<CheckReport | undefined>(undefined);
  const said = signal('');
  let isCancelled = false;
  /** Sheets of the last check; a repair checks these again. */
  let chosen: readonly string[] = [];

  const front = computed(() => {
    const survey = workbook.survey.value;
    return survey?.sheets.find(({ sheet }) => sheet === survey.active)?.sheet;
  });

  /** Sheet by sheet: a page stays able to listen, and no message to the program grows with the workbook. */
  async function read(sheets: readonly string[]): Promise<Book> {
    const found: BookSheet[] = [];
    let names: Book['names'] = [];
    for (const [at, sheet] of sheets.entries()) {
      if (isCancelled) break;
      progress.value = { done: at, of: 2 * sheets.length, words: `Reading \u201c${sheet}\u201d` };
      const book = await auditedBook(host, [sheet]);
      found.push(...book.sheets);
      names = book.names;
    }
    return { sheets: found, names };
  }

  async function checkOnce(sheets: readonly string[]): Promise<CheckReport> {
    const book = await read(sheets);
    const made = await check(book, {
      progress: ({ done, sheet }) => {
        if (sheet === '') return;
        const words = `Checking \u201c${sheet}\u201d`;
        progress.value = { done: sheets.length + done, of: 2 * sheets.length, words };
      },
      isCancelled: () => isCancelled,
      pause: () => new Promise((resolve) => setTimeout(resolve)),
    });
    return { ...made, isCancelled };
  }

  async function run(sheets: readonly string[], before = ''): Promise<void> {
    isCancelled = false;
    chosen = sheets;
    const attempt = await troubles.attempt('Checking', () => checkOnce(sheets));
    progress.value = undefined;
    if (!attempt.ok) return;
    report.value = attempt.value;
    said.value = [before, outcome(attempt.value)].filter(Boolean).join(' ');
  }

  return {
    front,
    progress,
    report,
    said,
    checkFront: async () => {
      said.value = '';
      report.value = undefined;
      // The program is asked, not what the pane remembers: the sheet in front may have changed just now.
      await workbook.look();
      if (front.value === undefined) said.value = 'The sheet in front is not one of ours.';
      else await run([front.value]);
    },
    checkAll: async () => {
      said.value = '';
      report.value = undefined;
      await workbook.look();
      const sheets = workbook.survey.value?.sheets.map(({ sheet }) => sheet) ?? [];
      if (sheets.length === 0) said.value = 'There is no sheet of ours in this workbook.';
      else await run(sheets);
    },
    cancel: () => {
      isCancelled = true;
    },
    repair: async (finding) => {
      said.value = '';
      const attempt = await troubles.attempt('Repairing', () => repair(host, finding));
      if (!attempt.ok) return;
      await run(
        chosen,
        attempt.value
          ? `Repaired ${finding.at ?? `\u201c${finding.sheet}\u201d`}.`
          : 'That is no longer so; nothing was changed.',
      );
      await workbook.look();
    },
  };
});

function outcome({ sheets, findings, isCancelled }: CheckReport): string {
  const of = count(sheets.length, 'sheet');
  if (isCancelled) return `Cancelled after ${of}: ${summary(findings)} so far.`;
  return `${of} checked: ${summary(findings)}.`;
}
