import type { Book } from '../../sheets/book';
import { hiddenIn } from '../../sheets/merges';
import { type Plan, type PlanCell, RESULT_ROLES } from '../../sheets/plan';
import { styleOf } from '../../sheets/style';
import { normalFormat } from '../format';
import { parseOnce } from '../formula/calculate';
import { type SheetView, sheetOf } from '../view';
import { isFilled } from './contents';
import { figureLinkIn } from './figurelink';
import type { Finding } from './finding';

const GENERAL = 'General';

/**
 * Sheet protection, locked cells, and number formats of everything that holds a number.
 *
 * @param book the workbook, for the formats that linked cells have taken over
 */
export function checkSafeguards(view: SheetView, { cells, merges }: Plan, book?: Book): Finding[] {
  const { sheet } = view;
  // Of a merged range only the first cell shows; what stands behind the others differs from program to program.
  const hidden = hiddenIn(merges);
  const found: Finding[] = [];
  if (!sheet.isProtected) {
    found.push({
      sheet: sheet.name,
      kind: 'protection',
      severity: 'warning',
      message: 'The sheet is not protected: a slip of the hand can overwrite a formula.',
      expected: 'protected, without a password',
      found: 'not protected',
      remedy: 'protect',
    });
  }
  for (const [at, plan] of Object.entries(cells)) {
    const style = sheet.cells[at]?.style;
    const isOpen = styleOf(plan).locked === false;
    if (isOpen !== (style?.locked === false)) {
      found.push({
        sheet: sheet.name,
        at,
        kind: 'lock',
        severity: 'warning',
        message: lockMessage(at, plan, isOpen),
        expected: isOpen ? 'open' : 'locked',
        found: isOpen ? 'locked' : 'open',
        remedy: 'restore-lock',
      });
    }
    const [wanted, came] = [normalFormat(plan.format), normalFormat(style?.format)];
    if (wanted === came || hidden.has(at) || !matters(plan)) continue;
    if (wanted === GENERAL && came === linkedFormat(view, at, book)) continue;
    found.push({
      sheet: sheet.name,
      at,
      kind: 'format',
      // A result that shows 98.4 % as 1 misleads as much as a wrong one.
      severity: RESULT_ROLES.has(plan.role) || plan.role === 'answer' ? 'error' : 'warning',
      message: `The number format of ${at} was altered: what it shows may not be what it holds.`,
      expected: plan.format ?? GENERAL,
      found: style?.format ?? GENERAL,
      remedy: 'restore-format',
    });
  }
  return found;
}

/**
 * The format of the cell that a link of ours takes its figure from: programs give it to the cell of a formula that has none
 * of its own.
 */
function linkedFormat(view: SheetView, at: string, book: Book | undefined): string | undefined {
  const formula = view.sheet.cells[at]?.formula;
  const link = formula === undefined ? undefined : figureLinkIn(view, formula);
  const from = link && parseOnce(`=${link.from}`);
  if (!book || from?.kind !== 'range' || from.sheet === undefined) return undefined;
  const source = sheetOf(book, from.sheet)?.sheet.cells[from.address.replaceAll('$', '')];
  return source && normalFormat(source.style?.format);
}

/** Labels and headings show the same in any number format. */
function matters({ role, formula, value }: PlanCell): boolean {
  return (
    formula !== undefined ||
    isFilled({ role, formula, value }) ||
    typeof value === 'number' ||
    ['input', 'reading', 'factor', 'choice', 'words'].includes(role)
  );
}

function lockMessage(at: string, { isOpen: sorts }: PlanCell, isOpen: boolean): string {
  if (!isOpen) return `${at} is not locked and can be overwritten.`;
  return sorts
    ? `${at} is locked: the lines of its table cannot be sorted.`
    : `${at} is for input and is locked.`;
}
