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
  // Any number at all: Excel has no rule without a limit.
  return { operator: 'GreaterThanOrEqualTo', formula1: min ?? -1e307 };
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
function toLimits(comparison: Comparison | undefined): { min?: number; max?: number } | undefined {
  if (!comparison) return undefined;
  const first = Number(String(comparison.formula1).replace(/^=/, ''));
  const second = Number(String(comparison.formula2 ?? '').replace(/^=/, ''));
  switch (comparison.operator) {
    case 'Between':
      return Number.isNaN(first) || Number.isNaN(second) ? undefined : { min: first, max: second };
    case 'GreaterThanOrEqualTo':
      return Number.isNaN(first) ? undefined : first <= -1e307 ? {} : { min: first };
    case 'LessThanOrEqualTo':
      return Number.isNaN(first) ? undefined : { max: first };
    default:
      return undefined;
  }
}
