import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type CheckReport, type CheckState, check } from '../../src/audit/check/check';
import type { Finding } from '../../src/audit/check/finding';
import { findingsSheet } from '../../src/audit/check/sheet';
import { answerOf, summary } from '../../src/audit/check/text';
import type { Book, BookSheet } from '../../src/sheets/book';
import { RECORD_KINDS, type SheetKind } from '../../src/sheets/plan';
import { brokenSealsOf } from '../overview/brokenseals';
import { count } from '../parse/block';
import { perStore } from '../store/perstore';
import { auditedBook } from './auditedbook';
import { lookIntoFile, withFileLook } from './filelook';
import { repair, repairName } from './repair';

export interface CheckProgress {
  /** Steps: each sheet is read, then checked; a large sheet counts in parts while it is checked. */
  readonly done: number;
  readonly of: number;
  readonly words: string;
}

/** The check of one or all of our sheets, and the repairs a person asks for. */
export interface Checking {
  /** The sheet in front, if it is one of ours with something to check. */
  readonly front: ReadonlySignal<string | undefined>;
  /** Which sheet is in front, in words, and if it cannot be checked, why. */
  readonly frontWords: ReadonlySignal<string>;
  readonly progress: ReadonlySignal<CheckProgress | undefined>;
  readonly report: ReadonlySignal<CheckReport | undefined>;
  /** What the last check or repair came to. */
  readonly said: ReadonlySignal<string>;
  checkFront(): Promise<void>;
  checkAll(): Promise<void>;
  cancel(): void;
  /** Writes the findings to a sheet of their own. */
  toSheet(): Promise<void>;
  /** Does what the findings of one cause ask for, then checks again. */
  repair(findings: readonly Finding[]): Promise<void>;
}

export const checkingOf = perStore((store): Checking => {
  const { host, workbook, troubles, author, log, makeId } = store;
  const progress = signal<CheckProgress | undefined>(undefined);
  const report = signal<CheckReport | undefined>(undefined);
  const said = signal('');
  let isCancelled = false;
  /** Sheets of the last check, and whether it was of the whole workbook; a repair checks these again. */
  let chosen: readonly string[] = [];
  let isWhole = false;

  const front = computed(() => {
    const survey = workbook.survey.value;
    return survey?.sheets.find(({ sheet, kind }) => sheet === survey.active && isChecked(kind))?.sheet;
  });

  const frontWords = computed(() => {
    const survey = workbook.survey.value;
    if (front.value !== undefined) return `Sheet in front: \u201c${front.value}\u201d`;
    return survey?.sheets.some(({ sheet }) => sheet === survey.active)
      ? 'The sheet in front is a report or the log: there is nothing in it to check or to seal. Bring another sheet to the front.'
      : 'The sheet in front is not one of ours: bring one to the front that this add-in built.';
  });

  /** Sheet by sheet: a page stays able to listen, and no message to the program grows with the workbook. */
  async function read(sheets: readonly string[]): Promise<Book> {
    const found: BookSheet[] = [];
    const linked = new Map<string, BookSheet>();
    let names: Book['names'] = sheets.length > 0 ? [] : (await host.book({ sheets })).names;
    for (const [at, sheet] of sheets.entries()) {
      if (isCancelled) break;
      progress.value = { done: at, of: 2 * sheets.length, words: `Reading \u201c${sheet}\u201d` };
      const book = await auditedBook(host, [sheet]);
      const [own, ...others] = book.sheets;
      if (own) found.push(own);
      for (const other of others) linked.set(other.name, other);
      names = book.names;
    }
    for (const { name } of found) linked.delete(name);
    return { sheets: [...found, ...linked.values()], names };
  }

  /** What only the file of a workbook tells is part of a check of the whole workbook. */
  async function fileOf(sheets: readonly string[]): ReturnType<typeof lookIntoFile> {
    progress.value = {
      done: sheets.length,
      of: 2 * sheets.length,
      words: 'Looking into the workbook’s file',
    };
    return lookIntoFile(host);
  }

  async function checkOnce(sheets: readonly string[]): Promise<CheckReport & { readonly leftOut: string }> {
    const cells = await read(sheets);
    const look = isWhole && sheets.length > 0 && !isCancelled ? await fileOf(sheets) : undefined;
    const hasFile = typeof look === 'object';
    const book = hasFile ? withFileLook(cells, look) : cells;
    const show = ({ done, part, sheet }: CheckState) => {
      const words = `Checking \u201c${sheet}\u201d`;
      progress.value = { done: sheets.length + done + part, of: 2 * sheets.length, words };
    };
    let state: CheckState | undefined;
    let turn = performance.now();
    const made = await check(book, {
      subtle: crypto.subtle,
      sheets,
      isPart: !isWhole,
      ...(hasFile ? { file: look.remarks } : {}),
      progress: (now) => {
        state = now;
        if (now.sheet !== '' && now.part === 0) show(now);
      },
      isCancelled: () => isCancelled,
      pause: () => {
        if (performance.now() - turn < TURN_MS) return undefined;
        if (state) show(state);
        return new Promise((resolve) =>
          setTimeout(() => {
            turn = performance.now();
            resolve();
          }),
        );
      },
    });
    const leftOut = typeof look === 'string' ? `${NOT_SEEN} ${look}` : '';
    return { ...made, isCancelled, leftOut };
  }

  async function run(sheets: readonly string[], before = ''): Promise<void> {
    isCancelled = false;
    chosen = sheets;
    const attempt = await troubles.attempt('Checking', () => checkOnce(sheets));
    progress.value = undefined;
    if (!attempt.ok) return;
    // A workbook may still know seals of sheets that were ours.
    if (sheets.length === 0 && attempt.value.findings.length === 0) {
      said.value = 'There is no sheet of ours in this workbook: make one under New.';
      return;
    }
    report.value = attempt.value;
    for (const sheet of attempt.value.isCancelled ? [] : attempt.value.sheets) {
      const isBroken = attempt.value.findings.some((each) => each.kind === 'seal' && each.sheet === sheet);
      brokenSealsOf(store).tell({ sheet, state: isBroken ? 'broken' : 'holds' });
    }
    void log.note('checked', sheets.length === 1 ? sheets[0]! : '', outcome(attempt.value));
    said.value = [before, outcome(attempt.value), attempt.value.leftOut].filter(Boolean).join(' ');
  }

  return {
    front,
    frontWords,
    progress,
    report,
    said,
    checkFront: async () => {
      said.value = '';
      report.value = undefined;
      // The program is asked, not what the pane remembers: the sheet in front may have changed just now.
      await workbook.look();
      if (front.value === undefined) said.value = frontWords.value;
      else {
        isWhole = false;
        await run([front.value]);
      }
    },
    checkAll: async () => {
      said.value = '';
      report.value = undefined;
      await workbook.look();
      const ours = workbook.survey.value?.sheets.filter(({ kind }) => isChecked(kind)) ?? [];
      const sheets = ours.map(({ sheet }) => sheet);
      isWhole = true;
      await run(sheets);
    },
    cancel: () => {
      isCancelled = true;
    },
    toSheet: async () => {
      const found = report.peek();
      if (!found) return;
      const attempt = await troubles.attempt('Writing the findings to a sheet', () =>
        host.build(findingsSheet(found, author.moment(), makeId())),
      );
      if (attempt.ok) said.value = `Wrote the findings to the sheet \u201c${attempt.value.sheet}\u201d.`;
      await workbook.look();
    },
    repair: async (findings) => {
      said.value = '';
      const finding = findings[0]!;
      const attempt = await troubles.attempt('Repairing', () => repair(host, findings));
      if (!attempt.ok) return;
      const others = attempt.value > 1 ? ` and ${count(attempt.value - 1, 'more cell')}` : '';
      if (attempt.value > 0) void log.note('repaired', finding.sheet, `${repaired(finding)}${others}`);
      await run(
        chosen,
        attempt.value > 0
          ? `Repaired ${finding.at ?? `\u201c${finding.sheet}\u201d`}${others}.`
          : 'That is no longer so; nothing was changed.',
      );
      await workbook.look();
    },
  };
});

const NOT_SEEN =
  'What only the workbook’s file tells was not looked at (drawings, links, comments, merged cells, notes, conditional formats, settings):';

/** The page gets its turn after so long; from 50 ms on browsers call a task long (W3C, Long Tasks API). */
const TURN_MS = 40;

/** Reports and the log hold nothing to compare. */
function isChecked(kind: SheetKind): boolean {
  return !RECORD_KINDS.includes(kind);
}

function repaired(finding: Finding): string {
  return `${finding.at ?? 'Sheet'}: ${finding.message} ${repairName(finding)}.`;
}

function outcome(report: CheckReport): string {
  const { sheets, findings, isCancelled } = report;
  const of = count(sheets.length, 'sheet');
  if (isCancelled) return `Cancelled after ${of}: ${summary(findings)} so far.`;
  return `${answerOf(report)} ${of} checked.`;
}
