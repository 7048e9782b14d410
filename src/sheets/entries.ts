import type { ValidationRule } from './book';
import type { PlanBuilder } from './builder';

/** A figure or a text that is typed once for a whole sheet. */
export interface EntryLine {
  readonly label: string;
  readonly name: string;
  readonly value: string | number | undefined;
  readonly rule: ValidationRule;
  readonly why: string;
  readonly format: string;
}

/** Such lines below each other, labels in A and entries in B to D. Returns the first row below. */
export function putEntries(b: PlanBuilder, row: number, lines: readonly EntryLine[]): number {
  lines.forEach(({ label, name, value, rule, why, format }, i) => {
    const r = row + i;
    b.put(`A${r}`, { role: 'label', value: label });
    b.wide(`B${r}:D${r}`, {
      role: rule.type === 'list' ? 'choice' : 'input',
      format,
      ...(value === undefined || value === '' ? {} : { value }),
    });
    b.name(name, `B${r}`, label);
    b.validate({
      range: `B${r}`,
      rule,
      prompt: { title: label, message: why },
      refusal: { title: label, message: taken(rule), style: 'stop' },
    });
  });
  return row + lines.length;
}

/** What a rule takes, said to someone whose entry it did not take. */
function taken(rule: ValidationRule): string {
  switch (rule.type) {
    case 'number':
      return `A number from ${rule.min ?? 'any'} to ${rule.max ?? 'any'}.`;
    case 'list':
      return `One of ${rule.choices.join('; ')}.`;
    case 'length':
      return `At most ${rule.max} characters.`;
    case 'date':
      return `A date from ${rule.min} on.`;
    case 'formula':
      return 'An entry that fits.';
  }
}
