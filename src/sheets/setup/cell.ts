import { type Bounds, TINY } from '../../photometry/bounds';
import type { ValidationRule } from '../book';
import { dayNumber } from '../days';
import { FORMAT } from '../run/layout';
import { percent } from '../run/percent';
import type { RunSetup } from '../runsetup';
import { FIRST_DATE, SETUP_FIELDS, type SetupField, TEXT_MAX } from './fields';
import { type SetupPath, valueAt } from './path';
import { FIELD_WHY } from './why';

/** One line of a set-up: a label, an input with a name, its rule and why the rule is there. */
export interface Field {
  readonly label: string;
  readonly name: string;
  readonly value: string | number | undefined;
  readonly rule: ValidationRule;
  readonly why: string;
  readonly format?: string;
}

/** The cell of a field with what a set-up has for it. @throws if the field has no cell */
export function cellOf(path: SetupPath, setup: Partial<RunSetup>): Field {
  const field: SetupField = SETUP_FIELDS[path];
  const { name, label } = field;
  if (name === undefined) throw new Error(`${path} has no cell of its own.`);
  const value = valueAt(setup, path) as string | number | undefined;
  const unit = field.kind === 'number' && field.unit === 'lm' ? `, ${field.unit}` : '';
  return {
    label: `${label}${unit}`,
    name,
    why: FIELD_WHY[path] ?? '',
    rule: ruleOf(field),
    ...shownAs(field, value),
  };
}

function shownAs(field: SetupField, value: string | number | undefined): Pick<Field, 'value' | 'format'> {
  switch (field.kind) {
    case 'text':
      return { value: value || undefined, format: FORMAT.text };
    case 'date':
      return { value: value ? dayNumber(String(value)) : undefined, format: FORMAT.date };
    case 'number':
      return { value, ...(field.unit === '%' ? { format: '0 %' } : {}) };
    default:
      return { value };
  }
}

/** The input rule of a field's cell. */
function ruleOf(field: SetupField): ValidationRule {
  switch (field.kind) {
    case 'text':
      return { type: 'length', max: TEXT_MAX };
    case 'date':
      return { type: 'date', min: FIRST_DATE };
    case 'choice':
      return { type: 'list', choices: field.choices };
    case 'number':
      return { type: 'number', ...field.bounds, ...(field.isWhole ? { whole: true } : {}) };
    case 'truth':
      return { type: 'list', choices: ['yes', 'no'] };
  }
}

/** What is said to an entry that breaks a line's rule. */
export function refusalOf({ label, rule, format }: Pick<Field, 'label' | 'rule' | 'format'>): string {
  switch (rule.type) {
    case 'list':
      return `${label}: choose one of ${rule.choices.join(', ')}.`;
    case 'number':
      return `${label}: a number ${within(rule, format?.endsWith('%'))}.`;
    case 'date':
      return `${label}: a date from ${rule.min} on.`;
    case 'length':
      return `${label}: at most ${rule.max} characters.`;
    default:
      return `${label}: not a possible entry.`;
  }
}

/** "from 0.05 to 20", "from 1 % to 200 %", "above 0, at most 1000". */
export function within({ min = 0, max = 0 }: Partial<Bounds>, isPart = false): string {
  const shown = (value: number) => (isPart ? percent(value) : String(value));
  return min === TINY ? `above 0, at most ${shown(max)}` : `from ${shown(min)} to ${shown(max)}`;
}
