import { cellsOf, rectOf } from '../../sheets/address';
import type { Book, CellValue, Validation, ValidationRule } from '../../sheets/book';
import { dayNumber } from '../../sheets/days';
import { LINK_LOST, LINK_WAITS } from '../../sheets/link';
import { moveFormula } from '../../sheets/move';
import { parseOnce } from '../formula/calculate';
import { evaluate } from '../formula/evaluate';
import { isError } from '../formula/value';
import { inWords } from '../number';
import { cellAt, type SheetView, scopeOf, valueAt } from '../view';
import { figureLinkIn } from './figurelink';
import type { Finding } from './finding';
import { inSteps, type Steps } from './steps';

/**
 * Every typed value against the rule of its cell once more: hosts do not check what is pasted or written by a
 * program. Empty cells are let through; they are missing, not wrong.
 */
export function* checkEntries(
  view: SheetView,
  planned: readonly Validation[],
  book?: Book,
): Steps<Finding[]> {
  const found: Finding[] = [];
  for (const { range, rule, refusal } of planned) {
    const origin = rectOf(range);
    yield* inSteps(cellsOf(range), (at) => {
      const value = valueAt(view, at);
      // The words of a link that waits are no entry; that it is one is said elsewhere.
      if (isWaitingLink(view, at)) return;
      const { row, column } = rectOf(at);
      if (isAllowed(view, book, value, rule, row - origin.row, column - origin.column)) return;
      found.push({
        sheet: view.sheet.name,
        at,
        kind: 'reading',
        severity: 'error',
        message: `${at} holds what its rule refuses. ${refusal.message}`,
        expected: refusal.message,
        found: inWords(value),
        remedy: 'read-again',
      });
    });
  }
  return found;
}

function isWaitingLink(view: SheetView, at: string): boolean {
  const { formula, value } = cellAt(view, at) ?? {};
  return (
    formula !== undefined &&
    (value === LINK_WAITS || value === LINK_LOST) &&
    figureLinkIn(view, formula) !== undefined
  );
}

function isAllowed(
  view: SheetView,
  book: Book | undefined,
  value: CellValue,
  rule: ValidationRule,
  rows: number,
  columns: number,
): boolean {
  if (value === null || value === '') return true;
  if (isError(value)) return false;
  switch (rule.type) {
    case 'number':
      return (
        typeof value === 'number' &&
        value >= (rule.min ?? Number.NEGATIVE_INFINITY) &&
        value <= (rule.max ?? Number.POSITIVE_INFINITY) &&
        (!rule.whole || Number.isInteger(value))
      );
    case 'list':
      // Exactly as listed: the formulas compare with these words.
      return rule.choices.includes(String(value));
    case 'date':
      return typeof value === 'number' && value >= dayNumber(rule.min);
    case 'length':
      return String(value).length <= rule.max;
    case 'formula': {
      const node = parseOnce(moveFormula(rule.formula, rows, columns));
      return node === undefined || evaluate(node, scopeOf(view, book)) !== false;
    }
  }
}
