import { LUMENS } from '../../photometry/bounds';
import type { PlanBuilder } from '../builder';
import { type EntryLine, putEntries } from '../entries';
import { LEVEL, TEXT_MAX } from '../setup/fields';
import type { AgeingSetup } from './setup';

/** Which unit, and what its light is held against. Returns the first row below. */
export function putUnit(b: PlanBuilder, row: number, setup: AgeingSetup): number {
  const text = { rule: { type: 'length', max: TEXT_MAX }, format: '@' } as const;
  const lumens = { rule: { type: 'number', ...LUMENS }, format: '#,##0.0' } as const;
  const lines: readonly EntryLine[] = [
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
      rule: { type: 'number', ...LEVEL },
      why: 'Of the intervals: 0.9545 is about two standard deviations.',
      format: '0.00 %',
    },
  ];
  b.wide(`A${row}:J${row}`, { role: 'heading', value: 'Unit (tinted cells are yours to fill in)' });
  return putEntries(b, row + 1, lines);
}
