import type { Validation, ValidationRule } from '../sheets/book';
import { isoDay } from '../sheets/days';

/** An input rule as the program tells it; undefined where there is none. */
export function validationOf(
  range: string,
  { rule, prompt, errorAlert, type }: Excel.DataValidation,
): Validation | undefined {
  const read = type === 'None' ? undefined : ruleFrom(rule);
  if (!read) return undefined;
  return {
    range,
    rule: read,
    prompt: { title: prompt.title ?? '', message: prompt.message ?? '' },
    refusal: {
      title: errorAlert.title ?? '',
      message: errorAlert.message ?? '',
      style: errorAlert.style === 'Stop' ? 'stop' : 'warning',
    },
  };
}

/** The rules our sheets use; any other comes back as a formula that is none of ours, so that a check sees it. */
function ruleFrom(rule: Excel.DataValidationRule): ValidationRule | undefined {
  if (rule.list) return { type: 'list', choices: String(rule.list.source).split(',') };
  const bounds = rule.decimal ?? rule.wholeNumber;
  if (bounds) return numberRule(bounds, rule.wholeNumber !== undefined) ?? foreign(bounds);
  if (rule.date) {
    const min = rule.date.operator === 'GreaterThanOrEqualTo' ? dayOf(rule.date.formula1) : '';
    return min ? { type: 'date', min } : foreign(rule.date);
  }
  if (rule.textLength) {
    const max = constant(rule.textLength.formula1);
    const isOurs = rule.textLength.operator === 'LessThanOrEqualTo' && Number.isFinite(max);
    return isOurs ? { type: 'length', max } : foreign(rule.textLength);
  }
  if (rule.custom) return { type: 'formula', formula: String(rule.custom.formula) };
  return undefined;
}

type Bounds = Excel.BasicDataValidation | Excel.DateTimeDataValidation;

function numberRule(
  { operator, formula1, formula2 }: Excel.BasicDataValidation,
  whole: boolean,
): ValidationRule | undefined {
  const [first, second] = [constant(formula1), constant(formula2)];
  const limits: Readonly<Record<string, readonly [number, number]>> = {
    Between: [first, second],
    GreaterThanOrEqualTo: [first, ANY],
    LessThanOrEqualTo: [-ANY, first],
  };
  const [min, max] = limits[operator] ?? [Number.NaN, Number.NaN];
  if (!Number.isFinite(min) || !Number.isFinite(max)) return undefined;
  return { type: 'number', ...(whole ? { whole } : {}), ...known('min', min), ...known('max', max) };
}

/** The writer puts this, with its sign, where a rule has no bound: Excel has no rule without. */
const ANY = 1e300;

function known(side: 'min' | 'max', value: number): { min?: number; max?: number } {
  return Math.abs(value) < ANY * 0.1 ? { [side]: value } : {};
}

/** A rule that no sheet of ours has, told in one line. */
function foreign({ operator, formula1, formula2 }: Bounds): ValidationRule {
  return { type: 'formula', formula: [operator, formula1, formula2 ?? ''].join(' ').trim() };
}

/** Bounds are "always returned as a string formula", such as "=10" (reference of Excel.BasicDataValidation.formula1). */
function constant(bound: unknown): number {
  const text = String(bound ?? '').replace(/^=/, '');
  return text === '' ? Number.NaN : Number(text);
}

/** The day of a date rule: a day number, as it was given, or by the date function. Empty for anything else. */
function dayOf(bound: unknown): string {
  const number = constant(bound);
  if (Number.isFinite(number)) return isoDay(number);
  const [, year = '', month = '', day = ''] =
    /^=?"?(\d{4})-(\d{1,2})-(\d{1,2})|^=DATE\((\d{4}),(\d{1,2}),(\d{1,2})\)$/i
      .exec(String(bound))
      ?.filter((part) => part !== undefined) ?? [];
  return year && `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
}
