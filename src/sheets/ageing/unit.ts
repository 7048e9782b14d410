import type { ValidationRule } from '../book';
import type { PlanBuilder } from '../builder';
import type { AgeingSetup } from './setup';

interface Line {
  readonly label: string;
  readonly name: string;
  readonly value: string | number | undefined;
  readonly rule: ValidationRule;
  readonly why: string;
  readonly format: string;
}

/** Which unit, and what its light is held against. Returns the first row below. */
export function putUnit(b: PlanBuilder, row: number, setup: AgeingSetup): number {
  const text = { rule: { type: 'length', max: 120 }, format: '@' } as const;
  const lumens = { rule: { type: 'number', min: 0.000001, max: 1_000_000 }, format: '#,##0.0' } as const;
  const lines: readonly Line[] = [
    {
      label: 'Projector',
      name: 'Projector',
      value: setup.projector,
      why: 'The unit that was measured.',
      ...text,
    },
    {
      label: 'Serial number',
      name: 'SerialNumber',
      value: setup.serial,
      why: 'From the type plate; kept as text.',
      ...text,
    },
    {
      label: 'Picture mode',
      name: 'PictureMode',
      value: setup.mode,
      why: 'One and the same mode for every line below.',
      ...text,
    },
    {
      label: 'Light the room needs, lm',
      name: 'NeededOutput',
      value: setup.needed,
      why: 'From the need of the room, without its reserve for ageing. Empty: hours to 70 % and 50 % only.',
      ...lumens,
    },
    {
      label: 'Initial light if stated, lm',
      name: 'StatedOutput',
      value: setup.stated,
      why: 'Light output at 0 h if somebody states it. Empty: the first measurement counts as initial.',
      ...lumens,
    },
    {
      label: 'Hours of use a year',
      name: 'HoursPerYear',
      value: setup.hoursPerYear,
      rule: { type: 'number', min: 1, max: 8784 },
      why: 'For the day of the next measurement.',
      format: '#,##0',
    },
    {
      label: 'Level of confidence',
      name: 'Level',
      value: setup.level,
      rule: { type: 'number', min: 0.5, max: 0.9999 },
      why: 'Of the intervals: 0.9545 is about two standard deviations.',
      format: '0.00 %',
    },
  ];
  b.wide(`A${row}:J${row}`, { role: 'heading', value: 'Unit (tinted cells are yours to fill in)' });
  lines.forEach(({ label, name, value, rule, why, format }, i) => {
    const r = row + 1 + i;
    b.put(`A${r}`, { role: 'label', value: label });
    b.wide(`B${r}:D${r}`, {
      role: 'input',
      format,
      ...(value === undefined || value === '' ? {} : { value }),
    });
    b.name(name, `B${r}`, label);
    b.validate({
      range: `B${r}`,
      rule,
      prompt: { title: label, message: why },
      refusal: {
        title: label,
        message:
          rule.type === 'number' ? `A number from ${rule.min} to ${rule.max}.` : 'At most 120 characters.',
        style: 'stop',
      },
    });
  });
  return row + 1 + lines.length;
}
