import { hiddenIn } from '../../sheets/merges';
import { type Plan, type PlanCell, RESULT_ROLES } from '../../sheets/plan';
import { styleOf } from '../../sheets/style';
import { normalFormat } from '../format';
import type { SheetView } from '../view';
import { isFilled } from './contents';
import type { Finding } from './finding';

/** Sheet protection, locked cells, and number formats of everything that holds a number. */
export function checkSafeguards({ sheet }: SheetView, { cells, merges }: Plan): Finding[] {
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
    found.push({
      sheet: sheet.name,
      at,
      kind: 'format',
      // A result that shows 98.4 % as 1 misleads as much as a wrong one.
      severity: RESULT_ROLES.has(plan.role) || plan.role === 'answer' ? 'error' : 'warning',
      message: `The number format of ${at} was altered: what it shows may not be what it holds.`,
      expected: plan.format ?? 'General',
      found: style?.format ?? 'General',
      remedy: 'restore-format',
    });
  }
  return found;
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
