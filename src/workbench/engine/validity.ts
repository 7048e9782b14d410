import { dateToSerial } from 'numfmt';
import { quoteSheet } from '../../sheets/address';
import type { CellValue } from '../../sheets/book';
import { parseReference } from './reference';
import type { Comparison, Operator, ValidationItem, ValidationRuleData } from './rules';
import type { Sheet } from './sheet';

/** `DataValidationType` of the API. */
export function validationType(rule: ValidationRuleData): string {
  if (rule.wholeNumber) return 'WholeNumber';
  if (rule.decimal) return 'Decimal';
  if (rule.textLength) return 'TextLength';
  if (rule.date) return 'Date';
  if (rule.time) return 'Time';
  if (rule.list) return 'List';
  return rule.custom ? 'Custom' : 'None';
}

/**
 * Whether a value satisfies a rule. A rule with a formula (`custom`) cannot be judged here and passes; see
 * `typing.ts`. Blank cells pass where blanks are ignored, which is the default.
 */
export function isValid({ rule, ignoreBlanks }: ValidationItem, value: CellValue, sheet: Sheet): boolean {
  if (value === null) return ignoreBlanks || validationType(rule) === 'None';
  if (typeof value === 'object') return false;
  const bound = (limit: string | number | undefined) => boundOf(limit, sheet);
  if (rule.list) return choicesOf(rule.list.source, sheet).includes(String(value).trim());
  if (rule.textLength) return compare(String(value).length, rule.textLength, bound);
  const comparison = rule.wholeNumber ?? rule.decimal ?? rule.date ?? rule.time;
  if (!comparison) return true;
  if (typeof value !== 'number') return false;
  if (rule.wholeNumber && !Number.isInteger(value)) return false;
  return compare(value, comparison, bound);
}

/** The entries of a list: written out with commas, or the cells of a range. */
export function choicesOf(source: string, sheet: Sheet): string[] {
  if (!source.startsWith('=')) return source.split(',').map((choice) => choice.trim());
  const name = sheet.engine.names.resolve(source.slice(1), sheet.id);
  const reference = parseReference(name?.refersTo ?? source);
  const owner = reference && sheet.engine.sheetByName(reference.sheet);
  if (!reference || !owner) return [];
  const { row, column, rows, columns } = reference.rect;
  const choices: string[] = [];
  for (let r = row; r < row + rows; r++)
    for (let c = column; c < column + columns; c++) {
      const value = owner.value(r, c);
      if (value !== null && typeof value !== 'object') choices.push(String(value));
    }
  return choices;
}

/** A limit may be a number, a date (`2026-11-25`), or a formula that is a reference or a constant. */
function boundOf(limit: string | number | undefined, sheet: Sheet): number {
  if (typeof limit === 'number') return limit;
  const text = String(limit ?? '').replace(/^=/, '');
  const date = /^(\d{4})-(\d\d)-(\d\d)/.exec(text);
  if (date) return dateToSerial([Number(date[1]), Number(date[2]), Number(date[3])]) ?? Number.NaN;
  if (text !== '' && Number.isFinite(Number(text))) return Number(text);
  const refersTo = sheet.engine.names.resolve(text, sheet.id)?.refersTo;
  const reference = parseReference(
    refersTo ?? (text.includes('!') ? text : `${quoteSheet(sheet.name)}!${text}`),
  );
  const owner = reference && sheet.engine.sheetByName(reference.sheet);
  const value = owner && reference ? owner.value(reference.rect.row, reference.rect.column) : undefined;
  return typeof value === 'number' ? value : Number.NaN;
}

function compare(
  value: number,
  { operator, formula1, formula2 }: Comparison,
  bound: (limit: string | number | undefined) => number,
): boolean {
  const [low, high] = [bound(formula1), bound(formula2)];
  const verdicts: Readonly<Record<Operator, () => boolean>> = {
    Between: () => value >= low && value <= high,
    NotBetween: () => value < low || value > high,
    EqualTo: () => value === low,
    NotEqualTo: () => value !== low,
    GreaterThan: () => value > low,
    LessThan: () => value < low,
    GreaterThanOrEqualTo: () => value >= low,
    LessThanOrEqualTo: () => value <= low,
  };
  return verdicts[operator]?.() ?? true;
}
