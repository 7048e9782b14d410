import { cellCount, isAddress } from '../../sheets/address';
import type { Book, FileRemark } from '../../sheets/book';
import { type Plan, RECORD_KINDS } from '../../sheets/plan';
import { calculatedAgain, type Planned, sourcesOf } from '../again';
import { expectedOf } from '../expected';
import type { KindAudit, ResultCell } from '../kinds/kind';
import { moved } from '../older/asbuilt';
import { checkRenewed } from '../older/compare';
import { ofItsTime } from '../older/functions';
import { checkOlderNames } from '../older/names';
import { type Renewed, renewedSheets } from '../older/renew';
import { isSealed } from '../seal/seal';
import type { Subtle } from '../seal/subtle';
import { verify } from '../seal/verify';
import { ourSheets, type SheetView } from '../view';
import { checkBook } from './book';
import { checkContents } from './contents';
import { checkEntries } from './entries';
import { type Finding, type RemedyId, SEVERITIES } from './finding';
import { checkNames } from './names';
import { inPlainCopy } from './plaincopy';
import { checkAgreement, checkFollowing, checkStored } from './results';
import { checkRules } from './rules';
import { checkSafeguards } from './safeguards';
import { checkDrawn, checkSeen, workbookRemarks } from './seen';
import { atOnce, type Steps } from './steps';

export interface CheckOptions {
  /** What a file holds beyond the book, where it was read from one: then merges, notes and further rules are looked at. */
  readonly file?: readonly FileRemark[];
  /** Compares the seals too; left out, they are not looked at. */
  readonly subtle?: Subtle<unknown>;
  /** Sheets to check; all of ours if left out. */
  readonly sheets?: readonly string[];
  /** The book lacks sheets of the workbook: which seal has lost its sheet cannot be told then. */
  readonly isPart?: boolean;
  /** Called before each sheet, after each step of it, and once at the end. */
  readonly progress?: (state: CheckState) => void;
  /** Asked before each sheet and after each step: true ends the check with what was found on whole sheets so far. */
  readonly isCancelled?: () => boolean;
  /**
   * Asked before each sheet and after each step, which takes milliseconds; a promise is awaited, so that a page can
   * draw and listen meanwhile.
   */
  readonly pause?: () => Promise<void> | undefined;
}

export interface CheckState {
  /** Whole sheets. */
  readonly done: number;
  readonly total: number;
  /** The sheet under way; empty at the end. */
  readonly sheet: string;
  /** How much of it was looked at, from 0 to 1. */
  readonly part: number;
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
  const tell = (sheet: string, part: number) =>
    options.progress?.({ done: checked.length, total: chosen.length, sheet, part });
  const goesOn = async () => {
    await options.pause?.();
    isCancelled = options.isCancelled?.() ?? false;
    return !isCancelled;
  };
  for (const view of chosen) {
    const { name } = view.sheet;
    tell(name, 0);
    if (!(await goesOn())) break;
    const steps = sheetSteps(view, book, options.file);
    let step = steps.next();
    while (!step.done && !isCancelled) {
      tell(name, step.value);
      if (await goesOn()) step = steps.next();
    }
    if (!step.done) break;
    for (const finding of step.value) findings.push(finding);
    checked.push(name);
  }
  if (!isCancelled) {
    const ofBook = [...checkBook(book, chosen, options.isPart), ...workbookRemarks(options.file)];
    findings.push(...ofBook.filter(({ kind }) => kind !== 'seal'));
    findings.unshift(...ofBook.filter(({ kind }) => kind === 'seal'));
  }
  if (!isCancelled && options.subtle) findings.unshift(...(await checkSeals(book, chosen, options.subtle)));
  tell('', 0);
  const names = new Set(ours.map(({ sheet }) => sheet.name));
  return {
    sheets: checked,
    records: records.map(({ sheet }) => sheet.name),
    others: book.sheets.map(({ name }) => name).filter((name) => !names.has(name)),
    findings: inPlainCopy(findings, book),
    isCancelled,
  };
}

/** Seals that do not hold: they stand before everything else. */
async function checkSeals(
  book: Book,
  views: readonly SheetView[],
  subtle: Subtle<unknown>,
): Promise<Finding[]> {
  const found: Finding[] = [];
  for (const view of views.filter(isSealed)) {
    const sheet = view.sheet.name;
    const { state, differences, reasons } = await verify(book, sheet, { subtle });
    // The workbook tells of a seal that was deleted, also where seals are not compared.
    if (state === 'holds' || state === 'not calculated' || state === 'none' || state === 'deleted') continue;
    const [first] = differences;
    const cells = differences.map(({ key }) => key);
    found.push({
      sheet,
      ...(first && isAddress(first.key) ? { at: first.key } : {}),
      kind: 'seal',
      severity: 'error',
      message: `The seal of “${sheet}” does not hold${differences.length > 0 ? `: ${differences.length === 1 ? `${cells[0]} differs` : `${differences.length} things differ, among them ${cells.slice(0, SEAL_LISTED).join(', ')}`}` : ''}.`,
      expected: 'what was sealed',
      found: first ? `${first.key}: ${first.now}` : reasons.join(' '),
    });
  }
  return found;
}
const SEAL_LISTED = 5;

export function isRecord({ identity }: SheetView): boolean {
  return identity !== undefined && RECORD_KINDS.includes(identity.kind);
}

/**
 * Everything that can be said of one sheet; the worst first, then in the order of the checks.
 *
 * @param book the workbook, for what the sheet is linked to
 */
export function checkSheet(view: SheetView, book?: Book): Finding[] {
  return atOnce(sheetSteps(view, book));
}

/** The same in steps; each says how much of the sheet was looked at, from 0 to 1. */
function* sheetSteps(
  view: SheetView,
  book: Book | undefined,
  file?: readonly FileRemark[],
): Generator<number, Finding[], undefined> {
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
  const renewed = expected.isOlder && renewedIn(view, book);
  const whole = cellsToLookAt(plan);
  let looked = 0;
  function* part<T>(steps: Steps<T>): Generator<number, T, undefined> {
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      looked += step.value;
      yield Math.min(1, looked / whole);
    }
  }
  const { contents, names, stored: asStored } = yield* part(lookedAt({ view, plan }, book));
  const stored = renewed ? ofItsTime(asStored, renewed.own, renewed.all, audit, book) : asStored;
  const rules = yield* part(checkRules(view, plan.validations));
  const entries = yield* part(checkEntries(view, plan.validations, book));
  const safeguards = checkSafeguards(view, plan, book);
  yield 1;
  const results = renewed
    ? checkRenewed(renewed.own, renewed.all)
    : yield* part(followed({ view, plan }, audit.results(view, plan), book));
  yield 1;
  const said = new Set([...contents, ...stored].map(({ at }) => at));
  const found = [
    ...contents,
    ...(renewed ? checkOlderNames(renewed.own) : names),
    ...stored,
    // A cell that holds the wrong thing is said once; cells that only inherit its fault are said too.
    ...results.filter(({ at }) => !said.has(at)),
    ...rules,
    ...safeguards,
    ...checkSeen(view, plan, book),
    ...(file ? checkDrawn(view, plan, file, expected.isOlder === true) : []),
    ...entries,
    ...(renewed
      ? [...ownFindings(renewed, audit), ...(audit.former?.(view) ?? [])]
      : (audit.findings?.(view, plan, book) ?? [])),
  ];
  return (renewed ? ofBefore(renewed.own, found) : found).sort(
    (a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity),
  );
}

/** What the cells and names of a sheet say by themselves. */
interface Looked {
  readonly contents: readonly Finding[];
  readonly names: readonly Finding[];
  readonly stored: readonly Finding[];
}

const looks = new WeakMap<SheetView, Looked & { readonly book: Book | undefined }>();

/** Looks at a sheet once, though others that are linked to it ask as well: a book is never changed. */
function* lookedAt({ view, plan }: Planned, book: Book | undefined): Steps<Looked> {
  const known = looks.get(view);
  if (known && known.book === book) return known;
  const contents = yield* checkContents(view, plan);
  const stored = yield* checkStored(view, plan, book);
  const found = { contents, names: checkNames(view, plan.names), stored, book };
  looks.set(view, found);
  return found;
}

/**
 * Results whose two ways disagree, and those that do not follow from what was typed. Where every cell of a sheet, and of those it is linked to, is as built
 * and holds what its formula gives, all of them do; only otherwise is everything calculated anew.
 */
function* followed(own: Planned, results: readonly ResultCell[], book: Book | undefined): Steps<Finding[]> {
  const disagreeing = checkAgreement(own.view, results);
  const sources = sourcesOf(own, book);
  for (const each of sources) {
    const { contents, names, stored } = yield* lookedAt(each, book);
    if (contents.length + names.length + stored.length === 0) continue;
    return [...disagreeing, ...checkFollowing(own.view, own.plan, results, calculatedAgain(sources, book))];
  }
  return disagreeing;
}

/** A sheet of an earlier layout as it would be built today, and all others of the workbook that are. */
function renewedIn(view: SheetView, book: Book | undefined) {
  const all = renewedSheets(book ?? { sheets: [view.sheet], names: [] });
  return { own: all.get(view.sheet.name)!, all };
}

/** What only its kind can be asked, asked of the sheet as it would be built today. */
function ownFindings(
  { own: { anew, plan, places, book }, all }: NonNullable<ReturnType<typeof renewedIn>>,
  audit: KindAudit,
): Finding[] {
  return (audit.findings?.(anew, plan, book, (sheet) => all.get(sheet)?.older) ?? []).map(
    ({ at, ...finding }) => {
      const place = at === undefined ? undefined : moved(at, places);
      return place === undefined ? finding : { ...finding, at: place };
    },
  );
}

/** What can be put back into a sheet of today's layout cannot be put back into an older one. */
const STAYS: ReadonlySet<RemedyId> = new Set(['refresh', 'protect', 'read-again', 'bring-up-to-date']);

function ofBefore({ older, plan }: Renewed, found: readonly Finding[]): Finding[] {
  const { version } = older.identity!;
  const by = older.builtBy === undefined ? '' : `, built by version ${older.builtBy} of this program`;
  return [
    ...found.map((finding): Finding => {
      const { remedy } = finding;
      return remedy && !STAYS.has(remedy) ? { ...finding, remedy: 'bring-up-to-date' } : finding;
    }),
    {
      sheet: older.sheet.name,
      kind: 'version',
      severity: 'note',
      message: `The sheet has layout ${version}${by}; today’s is ${plan.version}. It was built again from what was typed and compared by the names of its figures.`,
      expected: `layout ${plan.version}`,
      found: `layout ${version}`,
      remedy: 'bring-up-to-date',
    },
  ];
}

/** Cells that the steps of a check come to: contents and stored results once each, rules and entries once each. */
function cellsToLookAt({ cells, validations }: Plan): number {
  const planned = Object.values(cells);
  const ruled = validations.reduce((sum, { range }) => sum + cellCount(range), 0);
  return planned.length + planned.filter(({ formula }) => formula !== undefined).length + 2 * ruled;
}
