import { addressOf, rectOf } from '../../sheets/address';
import type { Validation, ValidationRule } from '../../sheets/book';
import type { Comparison, ValidationItem, ValidationRuleData } from '../engine/rules';

/** A validation of a `Book` → the API's. */
export function fromValidation({ range, rule, prompt, refusal }: Validation): ValidationItem {
  return {
    range: rectOf(range),
    rule: fromRule(rule),
    prompt: { showPrompt: true, ...prompt },
    errorAlert: {
      showAlert: true,
      title: refusal.title,
      message: refusal.message,
      style: refusal.style === 'warning' ? 'Warning' : 'Stop',
    },
    ignoreBlanks: true,
  };
}
function fromRule(rule: ValidationRule): ValidationRuleData {
  switch (rule.type) {
    case 'number': {
      const { min, max, whole } = rule;
      const comparison = between(min, max);
      return whole ? { wholeNumber: comparison } : { decimal: comparison };
    }
    case 'list':
      return { list: { source: rule.choices.join(','), inCellDropDown: true } };
    case 'date':
      return { date: { operator: 'GreaterThanOrEqualTo', formula1: rule.min } };
    case 'length':
      return { textLength: { operator: 'LessThanOrEqualTo', formula1: rule.max } };
    case 'formula':
      return { custom: { formula: rule.formula } };
  }
}
function between(min: number | undefined, max: number | undefined): Comparison {
  if (min !== undefined && max !== undefined) return { operator: 'Between', formula1: min, formula2: max };
  if (max !== undefined) return { operator: 'LessThanOrEqualTo', formula1: max };
  return { operator: 'GreaterThanOrEqualTo', formula1: min ?? -ANY };
}

/** The API's validation → a `Book`'s; undefined where a `Book` cannot say it (`NotBetween`, lists from cells). */
export function toValidation(item: ValidationItem): Validation | undefined {
  const rule = toRule(item.rule);
  if (!rule) return undefined;
  const { title, message, style } = item.errorAlert;
  return {
    range: addressOf(item.range),
    rule,
    prompt: { title: item.prompt.title, message: item.prompt.message },
    refusal: { title, message, style: style === 'Stop' ? 'stop' : 'warning' },
  };
}
function toRule(rule: ValidationRuleData): ValidationRule | undefined {
  if (rule.list)
    return rule.list.source.startsWith('=')
      ? undefined
      : { type: 'list', choices: rule.list.source.split(',') };
  if (rule.custom) return { type: 'formula', formula: rule.custom.formula };
  if (rule.date) {
    const { operator, formula1 } = rule.date;
    return operator === 'GreaterThanOrEqualTo' ? { type: 'date', min: String(formula1) } : undefined;
  }
  const limits = toLimits(rule.textLength ?? rule.wholeNumber ?? rule.decimal);
  if (!limits) return undefined;
  if (rule.textLength)
    return limits.min === undefined && limits.max !== undefined
      ? { type: 'length', max: limits.max }
      : undefined;
  return { type: 'number', ...limits, ...(rule.wholeNumber ? { whole: true } : {}) };
}
/** Beyond this a limit means "any number": Excel has no rule without limits. */
const ANY = 1e300;

function toLimits(comparison: Comparison | undefined): { min?: number; max?: number } | undefined {
  if (!comparison) return undefined;
  const { operator, formula1, formula2 = '' } = comparison;
  if (operator === 'Between') return limits(formula1, formula2);
  if (operator === 'GreaterThanOrEqualTo') return limits(formula1, ANY);
  return operator === 'LessThanOrEqualTo' ? limits(-ANY, formula1) : undefined;
}
/** Undefined where a limit is a reference and not a number. */
function limits(low: string | number, high: string | number): { min?: number; max?: number } | undefined {
  const [min, max] = [low, high].map((limit) => Number(String(limit).replace(/^=/, '') || 'none'));
  if (min === undefined || max === undefined || Number.isNaN(min) || Number.isNaN(max)) return undefined;
  return { ...(min > -ANY ? { min } : {}), ...(max < ANY ? { max } : {}) };
}
