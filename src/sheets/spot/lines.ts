import type { PlanBuilder } from '../builder';
import { defaultRunSetup } from '../runsetup';
import { cellOf, type Field, refusalOf } from '../setup/cell';
import { SPOT_REFERENCES, type SpotSetup } from './setup';

/** Who, where, with which meter; two lines side by side. Returns the first row below. */
export function putLines(b: PlanBuilder, row: number, setup: SpotSetup): number {
  b.wide(`A${row}:Q${row}`, { role: 'heading', value: 'Set-up (tinted cells are yours to fill in)' });
  const lines = linesOf(setup);
  lines.forEach((line, i) => {
    const r = row + 1 + (i >> 1);
    if (i % 2 === 0) putLine(b, line, `A${r}`, `B${r}:F${r}`);
    else putLine(b, line, `G${r}:J${r}`, `K${r}:M${r}`);
  });
  return row + 1 + Math.ceil(lines.length / 2);
}

function putLine(b: PlanBuilder, line: Field, labelAt: string, cells: string): void {
  const { label, name, value, rule, why, format } = line;
  const at = cells.split(':')[0]!;
  b.wide(labelAt, { role: 'label', value: label });
  b.wide(cells, {
    role: rule.type === 'list' ? 'choice' : 'input',
    ...(value === undefined || value === '' ? {} : { value }),
    ...(format ? { format } : {}),
  });
  b.name(name, at, label);
  b.validate({
    range: at,
    rule,
    prompt: { title: label, message: why },
    refusal: { title: label, message: refusalOf(line), style: 'stop' },
  });
}

function linesOf(setup: SpotSetup): Field[] {
  const run = { ...defaultRunSetup(), ...setup, ambient: 'once' as const };
  return [
    {
      ...cellOf('place', run),
      why: 'Where: one screen, one distance, one zoom for all units.',
    },
    cellOf('measuredBy', run),
    cellOf('meter.name', run),
    cellOf('date', run),
    cellOf('meter.unit', run),
    cellOf('meter.digit', run),
    cellOf('meter.calibration', run),
    cellOf('meter.corrections.white', run),
    cellOf('meter.corrections.red', run),
    cellOf('meter.corrections.green', run),
    cellOf('meter.corrections.blue', run),
    {
      label: 'Relative to',
      name: 'SpotReference',
      value: setup.reference,
      rule: { type: 'list', choices: SPOT_REFERENCES },
      why: 'first: the unit in the first line; best: the brightest unit, in white and in colour each.',
    },
  ];
}
