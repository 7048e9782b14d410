import type { PlanBuilder } from '../builder';
import { FORMAT } from '../run/layout';
import { defaultRunSetup } from '../runsetup';
import { cellOf, type Field } from '../setup/cell';
import { TEXT_MAX } from '../setup/fields';
import { putSideBySide } from '../setup/sidebyside';
import type { MeterCheckSetup } from './setup';

/** Lengths of a check: from a desk to a hall, and lamps from a diode to a globe. */
const METRES = { min: 0.05, max: 100 } as const;
const MILLIMETRES = { min: 0, max: 1000 } as const;

/** Who, where, with which meter on which light; two lines side by side. Returns the first row below. */
export function putLines(b: PlanBuilder, row: number, setup: MeterCheckSetup): number {
  return putSideBySide(b, row, linesOf(setup), {
    whole: ['A', 'K'],
    left: ['A', ['B', 'D']],
    right: ['F:H', ['I', 'K']],
  });
}

function linesOf(setup: MeterCheckSetup): Field[] {
  const usual = defaultRunSetup();
  const { name, unit, digit } = setup.meter;
  const run = { ...usual, ...setup, meter: { ...usual.meter, name, unit, digit } };
  const length = (
    label: string,
    cell: string,
    value: number | undefined,
    bounds: typeof METRES | typeof MILLIMETRES,
    why: string,
  ): Field => ({ label, name: cell, value, rule: { type: 'number', ...bounds }, why });
  return [
    cellOf('meter.name', run),
    cellOf('place', run),
    cellOf('meter.unit', run),
    cellOf('measuredBy', run),
    cellOf('meter.digit', run),
    cellOf('date', run),
    {
      label: 'Light used',
      name: 'CheckLight',
      value: setup.light,
      rule: { type: 'length', max: TEXT_MAX },
      why: 'Which lamp or projector shone, in which mode: it must hold still.',
      format: FORMAT.text,
    },
    length(
      'Distances, each ±, mm',
      'DistanceHalf',
      setup.distanceHalf,
      MILLIMETRES,
      'By how much each distance may be off: tape, and where lamp and sensor have their surfaces.',
    ),
    length(
      'Lamp to sensor, near, m',
      'NearDistance',
      setup.nearDistance,
      METRES,
      'From the lamp’s luminous surface to the sensor’s surface, the shorter distance.',
    ),
    length(
      'Lamp to sensor, far, m',
      'FarDistance',
      setup.farDistance,
      METRES,
      'From the lamp’s luminous surface to the sensor’s surface, the longer distance; twice the other is usual.',
    ),
    length(
      'Luminous area, diameter, mm',
      'SourceDiameter',
      setup.sourceDiameter,
      MILLIMETRES,
      'Widest measure of what shines.',
    ),
    length(
      'Sensor, diameter, mm',
      'SensorDiameter',
      setup.sensorDiameter,
      MILLIMETRES,
      'Of the white disc or dome that takes the light in.',
    ),
  ];
}
