import type { Rect } from '../../sheets/address';
import { type CellValue, isErrorKind } from '../../sheets/book';
import { type Entry, parseInput } from './input';
import { formatAddress, requireAddress } from './reference';
import type { ValidationItem } from './rules';
import type { Sheet } from './sheet';
import { isValid, validationType } from './validity';

/** What became of something a person typed. A warning is kept; the person would have been asked. */
export interface Typed {
  readonly accepted: boolean;
  readonly message?: string;
}

/**
 * Types text into a cell as a person does: refused in a locked cell of a protected sheet and by a validation
 * that stops; otherwise read as Excel reads typed text. Resolves when everything is calculated.
 */
export async function typeInto(sheet: Sheet, address: string, text: string): Promise<Typed> {
  const rect = requireAddress(address);
  const { row, column } = rect;
  const locked = lockRefusal(sheet, rect);
  if (locked !== undefined) return { accepted: false, message: locked };
  const entry = completed(sheet, parseInput(text, sheet.numberFormat(row, column)));
  if (entry.kind === 'formula' && !sheet.engine.formulas.isWellFormed(entry.formula))
    return { accepted: false, message: `There is a mistake in ${entry.formula}` };
  const refusal = validationRefusal(sheet, row, column, valueTyped(entry));
  if (refusal && refusal.style === 'Stop') return { accepted: false, message: refusal.message };
  const before = sheet.value(row, column);
  const beforeFormula = sheet.formula(row, column);
  sheet.enter(rect, () => entry);
  await sheet.engine.calculation.settled();
  const judged = await formulaRefusal(sheet, row, column);
  if (judged && judged.style === 'Stop') {
    sheet.enter(rect, () => previous(before, beforeFormula));
    await sheet.engine.calculation.settled();
    return { accepted: false, message: judged.message };
  }
  sheet.changed(rect, 'Unknown', plain(before));
  const warning = refusal ?? judged;
  return { accepted: true, ...(warning ? { message: warning.message } : {}) };
}

/** Why a person may not change these cells; undefined when they may. */
export function lockRefusal(sheet: Sheet, rect: Rect): string | undefined {
  if (!sheet.protection) return undefined;
  for (let row = rect.row; row < rect.row + rect.rows; row++)
    for (let column = rect.column; column < rect.column + rect.columns; column++)
      if (sheet.isLocked(row, column)) {
        const cell = formatAddress({ row, column, rows: 1, columns: 1 });
        return `${cell} is locked: the sheet "${sheet.name}" is protected. Unprotect it to change this cell.`;
      }
  return undefined;
}

/** What a validation says to a value, when it does not agree. A formula's result is not judged, as in Excel's grid. */
export function validationRefusal(
  sheet: Sheet,
  row: number,
  column: number,
  value: CellValue | undefined,
): { style: ValidationItem['errorAlert']['style']; message: string } | undefined {
  const item = sheet.validationAt(row, column);
  if (!item?.errorAlert.showAlert || value === undefined || isValid(item, value, sheet)) return undefined;
  return refusalOf(item);
}
function refusalOf({ errorAlert: { style, title, message } }: ValidationItem) {
  const text = message || "This value doesn't match the data validation restrictions defined for this cell.";
  return { style, message: title ? `${title}: ${text}` : text };
}

/** A rule that is a formula is judged with the new value in its place. */
export async function formulaRefusal(sheet: Sheet, row: number, column: number) {
  const item = sheet.validationAt(row, column);
  if (!item || validationType(item.rule) !== 'Custom' || !item.errorAlert.showAlert) return undefined;
  if (sheet.value(row, column) === null && item.ignoreBlanks) return undefined;
  const { engine } = sheet;
  const [down, right] = [row - item.range.row, column - item.range.column];
  const given = item.rule.custom!.formula;
  const formula = engine.encode(given.startsWith('=') ? given : `=${given}`, sheet.id);
  const moved = engine.api.getFormula().moveFormulaRefOffset(formula, right, down);
  const verdict = await engine.evaluate(sheet, row, column, moved);
  const isTrue = verdict === true || verdict === 1 || String(verdict).toUpperCase() === 'TRUE';
  return isTrue ? undefined : refusalOf(item);
}

/** Excel closes the brackets that a person left open. */
function completed(sheet: Sheet, entry: Entry): Entry {
  if (entry.kind !== 'formula') return entry;
  return {
    ...entry,
    formula: entry.formula + ')'.repeat(sheet.engine.formulas.missingBrackets(entry.formula)),
  };
}
function valueTyped(entry: Entry): CellValue | undefined {
  if (entry.kind === 'empty') return null;
  if (entry.kind === 'formula') return undefined;
  return isErrorKind(entry.value) && !entry.forced ? { error: entry.value } : entry.value;
}
/** What a cell held, to be entered again. */
export function previous(value: CellValue, formula: string | undefined): Entry {
  if (formula !== undefined) return { kind: 'formula', formula };
  if (value === null) return { kind: 'empty' };
  return typeof value === 'object'
    ? { kind: 'value', value: value.error }
    : { kind: 'value', value, forced: typeof value === 'string' };
}
/** A value as events tell it. */
export function plain(value: CellValue): string | number | boolean {
  return value === null ? '' : typeof value === 'object' ? value.error : value;
}
