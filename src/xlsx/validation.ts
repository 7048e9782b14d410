import type { DataValidation } from 'hucre';
import type { Validation, ValidationRule } from '../sheets/book';
import { dayNumber, isoDay } from '../sheets/days';
import { areasOf } from './areas';
import { unwritable } from './error';
import { showFormula, storeFormula } from './formula';
import { showText, storeText } from './text';

/** Excel's limits in characters; a file beyond them opens with a repair message. [MS-OI29500] 2.1.613 */
const LIMITS = { title: 32, prompt: 255, refusal: 224, list: 255 } as const;
/** "Any number" has no rule of its own: between the least and the greatest number a cell can hold. */
const ANY_NUMBER = 9.99999999999999e307;

export function storeValidation({ range, rule, prompt, refusal }: Validation): DataValidation {
  check(range, 'title', prompt.title, LIMITS.title);
  check(range, 'prompt', prompt.message, LIMITS.prompt);
  check(range, 'title', refusal.title, LIMITS.title);
  check(range, 'refusal', refusal.message, LIMITS.refusal);
  return {
    range,
    ...storeRule(range, rule),
    allowBlank: true,
    showInputMessage: true,
    showErrorMessage: true,
    inputTitle: storeText(prompt.title),
    inputMessage: storeText(prompt.message),
    errorTitle: storeText(refusal.title),
    errorMessage: storeText(refusal.message),
    errorStyle: refusal.style,
  };
}

function check(range: string, what: string, text: string, limit: number): void {
  if (text.length <= limit) return;
  throw unwritable(
    `The ${what} of the input rule for ${range} has ${text.length} characters; Excel takes ${limit}.`,
    'Shorten the text.',
  );
}

function storeRule(range: string, rule: ValidationRule): Omit<DataValidation, 'range'> {
  switch (rule.type) {
    case 'number': {
      const type = rule.whole ? 'whole' : 'decimal';
      const { min, max } = rule;
      if (min !== undefined && max !== undefined) {
        return { type, operator: 'between', formula1: String(min), formula2: String(max) };
      }
      if (min !== undefined) return { type, operator: 'greaterThanOrEqual', formula1: String(min) };
      if (max !== undefined) return { type, operator: 'lessThanOrEqual', formula1: String(max) };
      return { type, operator: 'between', formula1: String(-ANY_NUMBER), formula2: String(ANY_NUMBER) };
    }
    case 'list':
      return { type: 'list', formula1: storeList(range, rule.choices) };
    case 'date':
      return { type: 'date', operator: 'greaterThanOrEqual', formula1: String(dayNumber(rule.min)) };
    case 'length':
      return { type: 'textLength', operator: 'lessThanOrEqual', formula1: String(rule.max) };
    case 'formula':
      return { type: 'custom', formula1: storeFormula(rule.formula) };
  }
}

function storeList(range: string, choices: readonly string[]): string {
  const comma = choices.find((choice) => choice.includes(','));
  const list = choices.join(',');
  if (comma !== undefined || list.length > LIMITS.list) {
    throw unwritable(
      comma === undefined
        ? `The choices for ${range} have ${list.length} characters together; Excel takes ${LIMITS.list}.`
        : `The choice "${comma}" for ${range} has a comma, which separates choices in a file.`,
      'Use shorter choices without commas.',
    );
  }
  return `"${list.replace(/"/g, '""')}"`;
}

/**
 * A stored rule of a sheet → ours, one for each area it covers; rules that a Book cannot say are left out.
 * @throws XlsxError `damaged` for areas that are none
 */
export function showValidation(stored: DataValidation, sheet: string): Validation[] {
  const rule = showRule(stored);
  if (!rule) return [];
  const { inputTitle = '', inputMessage = '', errorTitle = '', errorMessage = '', errorStyle } = stored;
  return areasOf(stored.range, `an input rule of its sheet “${sheet}”`).map((range) => ({
    range,
    rule,
    prompt: { title: showText(inputTitle), message: showText(inputMessage) },
    refusal: {
      title: showText(errorTitle),
      message: showText(errorMessage),
      style: errorStyle === undefined || errorStyle === 'stop' ? 'stop' : 'warning',
    },
  }));
}

function showRule(stored: DataValidation): ValidationRule | undefined {
  const { type, operator = 'between', formula1, formula2 } = stored;
  const first = formula1 === undefined ? Number.NaN : Number(formula1);
  if (type === 'whole' || type === 'decimal') {
    const last = operator === 'between' ? Number(formula2) : first;
    const min = operator === 'lessThanOrEqual' ? -ANY_NUMBER : first;
    const max = operator === 'greaterThanOrEqual' ? ANY_NUMBER : last;
    const isRange = ['between', 'greaterThanOrEqual', 'lessThanOrEqual'].includes(operator);
    if (!isRange || !Number.isFinite(min) || !Number.isFinite(max)) return undefined;
    return {
      type: 'number',
      ...(min <= -ANY_NUMBER ? {} : { min }),
      ...(max >= ANY_NUMBER ? {} : { max }),
      ...(type === 'whole' ? { whole: true } : {}),
    };
  }
  // The library cuts a literal list at its commas but leaves doubled quotes doubled.
  if (type === 'list' && stored.values) {
    return { type: 'list', choices: stored.values.map((choice) => choice.replace(/""/g, '"')) };
  }
  if (type === 'date' && operator === 'greaterThanOrEqual') {
    const min = isoDay(first);
    return min === '' ? undefined : { type: 'date', min };
  }
  if (type === 'textLength' && operator === 'lessThanOrEqual' && Number.isFinite(first)) {
    return { type: 'length', max: first };
  }
  if (type === 'custom' && formula1 !== undefined) return { type: 'formula', formula: showFormula(formula1) };
  return undefined;
}
