import type { Book } from '../../sheets/book';
import { RECORD_KINDS } from '../../sheets/plan';
import { expectedOf } from '../expected';
import { ourSheets, type SheetView } from '../view';
import { checkBook } from './book';
import { checkContents } from './contents';
import { checkEntries } from './entries';
import { type Finding, SEVERITIES } from './finding';
import { checkNames } from './names';
import { inPlainCopy } from './plaincopy';
import { checkResults, checkStored } from './results';
import { checkRules } from './rules';
import { checkSafeguards } from './safeguards';

export interface CheckOptions {
  /** Sheets to check; all of ours if left out. */
  readonly sheets?: readonly string[];
  /** Called before each sheet and once at the end. */
  readonly progress?: (state: { done: number; total: number; sheet: string }) => void;
  /** Asked before each sheet: true ends the check with what was found so far. */
  readonly isCancelled?: () => boolean;
  /** Awaited before each sheet, so that a page can draw and listen in between. */
  readonly pause?: () => Promise<void>;
}

export interface CheckReport {
  /** Names of the sheets that were checked, in tab order. */
  readonly sheets: readonly string[];
  /** Reports and the log: there is nothing in them to compare. */
  readonly records: readonly string[];
  /** Sheets of the workbook that are not ours. */
  readonly others: readonly string[];
  readonly findings: readonly Finding[];
  readonly isCancelled: boolean;
}

/** Checks our sheets of a workbook. Nothing is changed. */
export async function check(book: Book, options: CheckOptions = {}): Promise<CheckReport> {
  const ours = ourSheets(book);
  const records = ours.filter(isRecord);
  const checkable = ours.filter((view) => !isRecord(view));
  const chosen = checkable.filter(({ sheet }) => options.sheets?.includes(sheet.name) ?? true);
  const findings: Finding[] = [];
  const checked: string[] = [];
  let isCancelled = false;
  for (const view of chosen) {
    options.progress?.({ done: checked.length, total: chosen.length, sheet: view.sheet.name });
    await options.pause?.();
    isCancelled = options.isCancelled?.() ?? false;
    if (isCancelled) break;
    findings.push(...checkSheet(view, book));
    checked.push(view.sheet.name);
  }
  if (!isCancelled) findings.push(...checkBook(book, chosen));
  options.progress?.({ done: checked.length, total: chosen.length, sheet: '' });
  const names = new Set(ours.map(({ sheet }) => sheet.name));
  return {
    sheets: checked,
    records: records.map(({ sheet }) => sheet.name),
    others: book.sheets.map(({ name }) => name).filter((name) => !names.has(name)),
    findings: inPlainCopy(findings, book),
    isCancelled,
  };
}

export function isRecord({ identity }: SheetView): boolean {
  return identity !== undefined && RECORD_KINDS.includes(identity.kind);
}

/**
 * Everything that can be said of one sheet; the worst first, then in the order of the checks.
 *
 * @param book the workbook, for what the sheet is linked to
 */
export function checkSheet(view: SheetView, book?: Book): Finding[] {
  const expected = expectedOf(view, book);
  if (!expected.known) {
    return [
      {
        sheet: view.sheet.name,
        kind: 'version',
        severity: 'warning',
        message: `The sheet cannot be compared with its layout. ${expected.why}`,
        expected: 'a layout this program knows',
        found: expected.why,
        remedy: 'new-sheet',
      },
    ];
  }
  const { plan, audit } = expected;
  const contents = checkContents(view, plan);
  const isStale = checkStored(view, plan, book);
  const said = new Set([...contents, ...isStale].map(({ at }) => at));
  const found = [
    ...contents,
    ...checkNames(view, plan.names),
    ...isStale,
    // A cell that holds the wrong thing is said once; cells that only inherit its fault are said too.
    ...checkResults(view, audit.results(view, plan), audit.recompute(view, plan, book)).filter(
      ({ at }) => !said.has(at),
    ),
    ...checkRules(view, plan.validations),
    ...checkSafeguards(view, plan),
    ...checkEntries(view, plan.validations, book),
    ...(audit.findings?.(view, plan, book) ?? []),
  ];
  return found.sort((a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity));
}
