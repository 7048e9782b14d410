import type { PlanBuilder } from '../builder';
import { defaultRunSetup } from '../runsetup';
import { cellOf, type Field } from '../setup/cell';
import { putSideBySide } from '../setup/sidebyside';
import { SPOT_REFERENCES, type SpotSetup } from './setup';

/** Who, where, with which meter; two lines side by side. Returns the first row below. */
export function putLines(b: PlanBuilder, row: number, setup: SpotSetup): number {
  return putSideBySide(b, row, linesOf(setup), {
    whole: ['A', 'Q'],
    left: ['A', ['B', 'F']],
    right: ['G:J', ['K', 'M']],
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
