import type { BookCell, CellValue } from '../../sheets/book';
import { LINK_LOST } from '../../sheets/link';
import { hiddenIn } from '../../sheets/merges';
import type { Plan, PlanCell } from '../../sheets/plan';
import { broken, isSameFormula } from '../formula/normal';
import { inWords } from '../number';
import { cellAt, type SheetView } from '../view';
import { figureLinkIn } from './figurelink';
import type { Finding } from './finding';
import { inSteps, type Steps } from './steps';

/** Roles whose value a person fills in, or the tool when something was done. */
const TYPED: ReadonlySet<string> = new Set(['input', 'choice', 'reading', 'factor', 'words', 'stamp']);

/** Whether a cell of the plan is there to be filled in. */
export function isTyped(cell: PlanCell): boolean {
  return cell.formula === undefined && isForTyping(cell);
}

/** The same, or filled by a link that a person may type over. */
export function isForTyping({ role }: PlanCell): boolean {
  return TYPED.has(role);
}

/** Whether a cell of the plan is filled by a function of ours that stands in another cell. */
export function isFilled({ role, formula, value }: PlanCell): boolean {
  return role === 'called' && formula === undefined && value === undefined;
}

/** Whether a cell of the plan holds a result, of its own formula or of a function in another cell. */
export function isComputed({ cells }: Plan, at: string): boolean {
  const cell = cells[at];
  return cell !== undefined && (cell.formula !== undefined || isFilled(cell));
}

/** Formulas as built or altered, constants over formulas, altered labels, and things put where nothing was. */
export function* checkContents(view: SheetView, { cells: planned, merges }: Plan): Steps<Finding[]> {
  const hidden = hiddenIn(merges);
  const found: Finding[] = [];
  const look = (at: string) => {
    const finding = checkContent(view, planned, hidden, at);
    if (finding) found.push(finding);
  };
  yield* inSteps(
    Object.keys(planned).filter((at) => !hidden.has(at)),
    look,
  );
  const isOther = (at: string) => hidden.has(at) || !Object.hasOwn(planned, at);
  Object.keys(view.sheet.cells).filter(isOther).forEach(look);
  return found;
}

/** The same of one cell. @param hidden cells behind merged ones, by `hiddenIn` */
export function checkContent(
  view: SheetView,
  planned: Plan['cells'],
  hidden: ReadonlySet<string>,
  at: string,
): Finding | undefined {
  const cell = cellAt(view, at);
  if (Object.hasOwn(planned, at) && !hidden.has(at)) return checkCell(view, at, planned[at]!, cell);
  if (!cell || (blank(cell.value) === null && cell.formula === undefined)) return undefined;
  return {
    sheet: view.sheet.name,
    at,
    kind: 'added',
    severity: 'note',
    message: hidden.has(at)
      ? `${at} lies behind a merged cell, where nothing shows, and holds something.`
      : `${at} is empty in the layout and now holds something.`,
    expected: 'empty',
    found: cell.formula ?? inWords(cell.value),
    remedy: 'clear',
  };
}

function checkCell(
  view: SheetView,
  at: string,
  plan: PlanCell,
  cell: BookCell | undefined,
): Finding | undefined {
  const where = { sheet: view.sheet.name, at };
  const value = blank(cell?.value);
  if (plan.formula !== undefined) {
    if (cell?.formula === undefined) {
      const isOpen = isForTyping(plan);
      return {
        ...where,
        kind: 'constant',
        severity: isOpen ? 'warning' : 'error',
        message:
          value === null
            ? `The formula in ${at} was deleted.`
            : isOpen
              ? `A typed value stands in ${at} in place of its link.`
              : `A constant stands in ${at} in place of its formula.`,
        expected: plan.formula,
        found: inWords(value),
        remedy: 'restore-formula',
      };
    }
    return checkFormula(view, at, plan.formula, cell);
  }
  if (cell?.formula !== undefined) {
    const isLink = isTyped(plan) && figureLinkIn(view, cell.formula) !== undefined;
    if (isLink) return checkLink(where, cell);
    return {
      ...where,
      kind: 'formula',
      severity: isTyped(plan) ? 'warning' : 'error',
      message: isTyped(plan)
        ? `${at} is for a typed value and holds a formula.`
        : `${at} holds a formula where the layout has a fixed text or number.`,
      expected: isTyped(plan) ? 'a typed value' : inWords(plan.value ?? null),
      found: cell.formula,
      ...(isTyped(plan) ? { remedy: 'read-again' as const } : { remedy: 'restore-text' as const }),
    };
  }
  // What a table is filled with is held against its function, as other results are.
  if (isTyped(plan) || isFilled(plan) || value === blank(plan.value)) return undefined;
  return {
    ...where,
    kind: 'text',
    severity: typeof plan.value === 'number' ? 'error' : 'warning',
    message: `The fixed ${typeof plan.value === 'number' ? 'number' : 'text'} in ${at} was altered.`,
    expected: inWords(plan.value ?? null),
    found: inWords(value),
    remedy: 'restore-text',
  };
}

/** A figure linked to another sheet is as good as a typed one, as long as that sheet is there. */
function checkLink(where: { sheet: string; at: string }, cell: BookCell): Finding | undefined {
  if (cell.value !== LINK_LOST) return undefined;
  return {
    ...where,
    kind: 'formula',
    severity: 'warning',
    message: `${where.at} was linked to a sheet that is gone, and has no figure any more.`,
    expected: 'a typed value, or a link to one',
    found: cell.formula!,
    remedy: 'read-again',
  };
}

function checkFormula(view: SheetView, at: string, planned: string, cell: BookCell): Finding | undefined {
  const own = view.sheet.name;
  const formula = cell.formula!;
  const where = { sheet: own, at };
  if (isSameFormula(formula, planned, own)) {
    const isStuck = typeof cell.value === 'object' && cell.value?.error === '#NAME?';
    if (!isStuck) return undefined;
    return {
      ...where,
      kind: 'broken',
      severity: 'warning',
      message: `The formula in ${at} is as built but shows #NAME?: it was entered or opened while the add-in was absent.`,
      expected: 'a result',
      found: '#NAME?',
      remedy: 'refresh',
    };
  }
  const form = broken(formula);
  if (form && isSameFormula(form.meant, planned, own)) {
    return {
      ...where,
      kind: 'broken',
      severity: 'warning',
      message: `A host has rewritten the call in ${at} as ${form.form}, which no program can compute.`,
      expected: planned,
      found: formula,
      remedy: 'refresh',
    };
  }
  return {
    ...where,
    kind: 'formula',
    severity: 'error',
    message: `The formula in ${at} is not the one built.`,
    expected: planned,
    found: formula,
    remedy: 'restore-formula',
  };
}

/** Programs differ in whether a cell without text is empty or holds an empty text. */
function blank(value: CellValue | undefined): CellValue {
  return value === undefined || value === '' ? null : value;
}
