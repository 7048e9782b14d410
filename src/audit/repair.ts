import { addressOf, cellsOf, rectOf, refersTo } from '../sheets/address';
import type { Book, BookCell, BookSheet, CellValue, DefinedName, Style } from '../sheets/book';
import type { Plan, PlanCell } from '../sheets/plan';
import { styleOf } from '../sheets/style';
import { checkSheet, isRecord } from './check/check';
import type { Finding } from './check/finding';
import { expectedOf } from './expected';
import { calculateBook } from './formula/calculate';
import { isSealed } from './seal/seal';
import { isOlder } from './today';
import { ourSheets, type SheetView, viewOf } from './view';

/** What was put back into a workbook, and which sheets were left alone. */
export interface Repaired {
  /** The workbook with everything put back that could be, calculated. */
  readonly book: Book;
  readonly done: readonly PutBack[];
  /** Sheets with results that came out otherwise when they were calculated, and how many. */
  readonly anew: readonly { readonly sheet: string; readonly results: number }[];
  readonly left: readonly { readonly sheet: string; readonly why: string }[];
}

/** One thing that was put back, and what stood in its place: that is nowhere else from then on. */
export interface PutBack {
  readonly sheet: string;
  /** `formula`, `text`, `number format`, `lock`, `name`, `rule` or `protection`. */
  readonly what: string;
  /** Cell, range or name; empty for a sheet as a whole. */
  readonly at: string;
  readonly before: string;
}

/** How often a sheet is looked at: a name that is put back shows what else is gone. */
const ROUNDS = 3;

/**
 * Puts back what a person can lose on sheets of ours: formulas and fixed words that were overwritten, number formats
 * and locks of cells, names that are broken or gone, input rules, protection. All of it follows from the plan, which is found again from what is left; what
 * was typed into cells for it stays, and so does whatever was added. Results are calculated anew where something was put
 * back, and where they were old or altered: that no formula is gone does not make them right. Sealed sheets, and those of earlier layouts, are left.
 *
 * @param sheets which; all of ours if left out
 */
export function repaired(book: Book, sheets?: readonly string[]): Repaired {
  const done: PutBack[] = [];
  const left: { sheet: string; why: string }[] = [];
  let now = book;
  let isStale = false;
  for (const { sheet } of ourSheets(book).filter((view) => !isRecord(view))) {
    if (sheets && !sheets.includes(sheet.name)) continue;
    const why = stays(viewOf(sheet));
    if (why !== undefined) {
      left.push({ sheet: sheet.name, why });
      continue;
    }
    for (let round = 0; round < ROUNDS; round++) {
      const own = now.sheets.find(({ name }) => name === sheet.name)!;
      const found = putBack(viewOf(own), now);
      isStale ||= found.isStale;
      if (found.done.length === 0) break;
      done.push(...found.done);
      now = { ...now, sheets: now.sheets.map((each) => (each === own ? found.sheet : each)) };
    }
  }
  const after = done.length > 0 || isStale ? calculatedOurs(now) : book;
  return { book: after, done, anew: differing(now, after), left };
}

function differing(before: Book, after: Book): Repaired['anew'] {
  return after.sheets.flatMap(({ name, cells }, i) => {
    const was = before.sheets[i]!.cells;
    const results = Object.entries(cells).filter(
      ([at, { value }]) => !isSameValue(value, was[at]?.value ?? null),
    ).length;
    return results > 0 ? [{ sheet: name, results }] : [];
  });
}

/** An empty text and an empty cell are one; of errors the kind counts. */
function isSameValue(a: CellValue, b: CellValue): boolean {
  const plain = (value: CellValue) =>
    value === null || value === '' ? null : typeof value === 'object' ? value.error : value;
  return plain(a) === plain(b);
}

function stays(view: SheetView): string | undefined {
  if (isSealed(view)) return 'it is sealed; reopen it first';
  if (isOlder(view)) return 'it has an earlier layout; bring it up to date instead';
  return undefined;
}

/** The results of our sheets follow; those of others are left as their programs made them. */
function calculatedOurs(book: Book): Book {
  const { sheets } = calculateBook(book);
  return { ...book, sheets: book.sheets.map((sheet, i) => (viewOf(sheet).identity ? sheets[i]! : sheet)) };
}

function putBack(view: SheetView, book: Book): { sheet: BookSheet; done: PutBack[]; isStale: boolean } {
  const expected = expectedOf(view, book);
  if (!expected.known) return { sheet: view.sheet, done: [], isStale: false };
  const { plan } = expected;
  const cells: Record<string, BookCell> = {};
  const contents = new Set<string>();
  const names = new Map<string, DefinedName>();
  const rules = new Set<string>();
  const done: PutBack[] = [];
  let { isProtected } = view.sheet;
  const findings = checkSheet(view, book);
  for (const finding of findings) {
    const { remedy, at = '', found } = finding;
    const say = (what: string, where = at) =>
      done.push({ sheet: view.sheet.name, what, at: where, before: found });
    if (isContent(finding) && !contents.has(at)) {
      contents.add(at);
      cells[at] = planned(plan, at, cells[at] ?? view.sheet.cells[at]);
      say(plan.cells[at]!.formula === undefined ? 'text' : 'formula');
    }
    if (remedy === 'restore-format' || remedy === 'restore-lock') {
      const cell = cells[at] ?? view.sheet.cells[at] ?? { value: null };
      cells[at] = { ...cell, style: safeguarded(cell.style, plan.cells[at]!, remedy) };
      say(remedy === 'restore-format' ? 'number format' : 'lock');
    }
    if (remedy === 'restore-name') {
      for (const name of plan.names.filter((each) => isMeant(finding, each))) {
        names.set(name.name.toLowerCase(), {
          name: name.name,
          refersTo: refersTo(view.sheet.name, name.range),
          comment: name.comment,
        });
        say('name', name.name);
      }
    }
    if (remedy === 'restore-validation') {
      for (const cell of cellsOf(at)) rules.add(cell);
      say('rule');
    }
    if (remedy === 'protect' && !isProtected) {
      isProtected = true;
      say('protection', '');
    }
  }
  return {
    done,
    isStale: findings.some(({ remedy }) => remedy === 'refresh'),
    sheet: {
      ...view.sheet,
      cells: { ...view.sheet.cells, ...cells },
      names: [...view.sheet.names.filter(({ name }) => !names.has(name.toLowerCase())), ...names.values()],
      validations: rulesWith(view.sheet, plan, rules),
      isProtected,
    },
  };
}

/** A formula or a fixed text that was altered, or a call that a program has rewritten beyond computing. */
function isContent({ remedy, kind, found }: Finding): boolean {
  return (
    remedy === 'restore-formula' || remedy === 'restore-text' || (kind === 'broken' && found.startsWith('='))
  );
}

function planned({ cells }: Plan, at: string, was: BookCell | undefined): BookCell {
  const { formula, value } = cells[at]!;
  const kept = was?.style === undefined ? {} : { style: was.style };
  return formula === undefined ? { ...kept, value: value ?? null } : { ...kept, value: null, formula };
}

/** A look with the planned number format, or the planned lock. */
function safeguarded(
  style: Style | undefined,
  cell: PlanCell,
  remedy: 'restore-format' | 'restore-lock',
): Style {
  if (remedy === 'restore-lock') return { ...style, locked: styleOf(cell).locked !== false };
  const { format: _, ...rest } = style ?? {};
  return cell.format === undefined ? rest : { ...rest, format: cell.format };
}

function isMeant({ expected }: Finding, { name, range }: Plan['names'][number]): boolean {
  return expected === `${name} = ${addressOf(rectOf(range))}`;
}

/** The rules of the sheet, with the planned ones where those of some cells are to be set again. */
function rulesWith({ validations }: BookSheet, plan: Plan, cells: ReadonlySet<string>) {
  if (cells.size === 0) return validations;
  const again = plan.validations.filter(({ range }) => cellsOf(range).some((at) => cells.has(at)));
  const covered = new Set(again.flatMap(({ range }) => cellsOf(range)));
  const others = validations.filter(({ range }) => !cellsOf(range).some((at) => covered.has(at)));
  return [...others, ...again];
}

/** `B60: a formula; 999 stood there`. */
export function putBackWords({ what, at, before }: PutBack): string {
  return `${at === '' ? 'the sheet' : at}: ${what} put back; before: ${before}`;
}
