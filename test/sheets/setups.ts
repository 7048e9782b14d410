import { defaultRunSetup, type RunSetup } from '../../src/sheets/runsetup';

const base: RunSetup = {
  ...defaultRunSetup(),
  projector: 'Reading room unit 1 (invented)',
  serial: '0042',
  mode: 'Standard, full power',
  place: 'Hillside Library, reading room (invented)',
  measuredBy: 'A. Person (invented)',
  date: '2026-03-02',
};

/** Three set-ups that between them use every block of a run sheet. */
export const SETUPS: Readonly<Record<string, RunSetup>> = {
  'full-fields': { ...base, rated: { white: 2300, colour: 2300, minimumFraction: 0.8 } },
  'tiled-everything': {
    ...base,
    meter: {
      ...base.meter,
      unit: 'fc',
      range: 10,
      digit: 0.1,
      calibration: 1.02,
      corrections: { white: 1, red: 1.038, green: 0.985, blue: 1.116 },
    },
    image: {
      shape: 'four sides',
      unit: 'cm',
      top: 160,
      right: 121,
      bottom: 161,
      left: 120,
      falling: 201,
      rising: 200,
    },
    colour: 'tiled patterns',
    ambient: 'nine points',
    black: true,
    checkerboard: true,
    corners: true,
  },
  'white-only': { ...base, colour: 'none', ambient: 'none', black: false },
};
