import { filled } from '../filled';
import type { Plan } from '../plan';
import { runPlan } from '../run';
import { defaultRunSetup, type RunSetup, type UncertaintySetup } from '../runsetup';
import type { InventedUnit } from './light';
import { EXAMPLE_METER } from './meter';
import { LEAST_PART, MEASURER, TAKEN } from './network';
import { readingsOf } from './readings';

/** The image in the room where deliveries are measured, in metres. */
const TEST_IMAGE = { width: 2, height: 1.25 } as const;
export const TEST_AREA = TEST_IMAGE.width * TEST_IMAGE.height;
/** Light of that room with the projector's beam blocked, lx: blinds down, exit sign on. */
export const TEST_ROOM = 2.6;

const MODE = 'Standard';

/** What all runs of the example have in common. */
export function exampleSetup(serial: string): RunSetup {
  const plain = defaultRunSetup();
  return {
    ...plain,
    projector: serial,
    serial,
    mode: MODE,
    place: 'Stores, room 2 (invented)',
    measuredBy: MEASURER,
    date: '2026-03-04',
    meter: EXAMPLE_METER,
    image: {
      shape: 'rectangle',
      known: 'width',
      length: TEST_IMAGE.width,
      unit: 'm',
      across: 16,
      down: 10,
    },
    rated: { white: TAKEN.white!, colour: TAKEN.colour!, minimumFraction: LEAST_PART },
    ambient: 'once',
    uncertainty: {
      ...plain.uncertainty,
      ofReading: 0.03,
      digits: 3,
      spectral: { white: 0.01, red: 0.03, green: 0.015, blue: 0.06 },
      width: 4,
      height: 4,
      square: 0.002,
      ambient: 0.2,
    },
  };
}

/** What the data sheet of the meter prints, and where it stood: invented, of a good class A meter. */
export const DATA_SHEET = {
  meterClass: 'A',
  f1: 0.025,
  f2: 0.015,
  linearity: 0.003,
  light: 'lamp',
  throwDistance: 3.1,
  sensorHeight: 25,
} as const satisfies Partial<UncertaintySetup>;

/** A run sheet of the example with all its readings. */
export function exampleRun(unit: InventedUnit, differs: Partial<RunSetup>, note: string, id: string): Plan {
  const setup = { ...exampleSetup(unit.serial), ...differs };
  return filled(runPlan(setup, id), {
    ...readingsOf(unit, setup, TEST_AREA, TEST_ROOM),
    CaptureNotes: [[note]],
  });
}
