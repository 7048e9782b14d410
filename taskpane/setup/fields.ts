import { SIGNAL_STANDARDS } from '../../src/photometry/colour';
import { ASPECTS } from '../../src/photometry/image';
import { ILLUMINANCE_UNITS, LENGTH_UNITS, type LengthUnit, METRES } from '../../src/photometry/units';
import type { FieldId, FieldSpec, Texts } from './field';
import { SURE_FIELDS } from './surefields';

const YES_NO = [
  ['no', 'No'],
  ['yes', 'Yes'],
] as const;

/** A projected image between a hand's breadth and a stadium: outside it, somebody mistook the unit. */
const IMAGE_METRES = { min: 0.1, max: 200 };

function length(what: string, known: string): FieldSpec {
  return {
    kind: 'number',
    label: what,
    isRequired: true,
    isImageLength: true,
    applies: ({ known: chosen }) =>
      known === 'one' ? ['width', 'height', 'diagonal'].includes(chosen) : chosen === known,
    expect: ({ lengthUnit }) => {
      const unit = lengthUnit as LengthUnit;
      const inUnit = (metres: number) => Number((metres / METRES[unit]).toPrecision(4));
      return { what: what.toLowerCase(), unit, min: inUnit(IMAGE_METRES.min), max: inUnit(IMAGE_METRES.max) };
    },
  };
}

function correction(colour: string): FieldSpec {
  return {
    kind: 'number',
    label: `Correction for ${colour}`,
    isKept: true,
    ...(colour === 'white' ? {} : { applies: ({ colour: fields }: Texts) => fields !== 'none' }),
    // A tenth to ten times: the same upper bound as the sheet's own rule.
    expect: () => ({ what: `correction for ${colour}`, unit: '', min: 0.1, max: 10 }),
  };
}

export const FIELDS: Readonly<Record<FieldId, FieldSpec>> = {
  projector: {
    kind: 'text',
    label: 'Projector',
    isRequired: true,
    hint: 'As the offer or the delivery note calls it.',
  },
  serial: { kind: 'text', label: 'Serial number', hint: 'From the type plate.' },
  mode: {
    kind: 'text',
    label: 'Picture mode',
    hint: 'And the light-source setting, as the projector\u2019s menu calls them.',
  },
  place: { kind: 'text', label: 'Place', isKept: true },
  measuredBy: { kind: 'text', label: 'Measured by', isKept: true },
  date: { kind: 'date', label: 'Date' },
  meterName: { kind: 'text', label: 'Meter', isKept: true, hint: 'With its serial or inventory number.' },
  meterUnit: {
    kind: 'choice',
    label: 'Unit on the meter',
    isKept: true,
    hint: 'What the display shows.',
    choices: ILLUMINANCE_UNITS.map((unit) => [unit, unit === 'lx' ? 'lx (lux)' : 'fc (footcandle)'] as const),
  },
  range: {
    kind: 'choice',
    label: 'Range factor to start with',
    isKept: true,
    hint: 'By how much the display is multiplied: 248 on the \u00d7 10 range is 2480. Each reading has its own factor on the sheet.',
    choices: ['0.01', '0.1', '1', '10', '100', '1000'].map((factor) => [factor, `\u00d7 ${factor}`] as const),
  },
  digit: {
    kind: 'number',
    label: 'Display step at \u00d7 1',
    isKept: true,
    hint: 'The smallest step of the last digit, such as 1 or 0.1.',
    expect: () => ({ what: 'display step', unit: '', moreThan: 0, max: 1000 }),
  },
  calibratedOn: {
    kind: 'date',
    label: 'Calibrated on',
    isKept: true,
    hint: 'From the certificate. Empty if unknown.',
  },
  calibration: {
    kind: 'number',
    label: 'Calibration factor',
    isKept: true,
    hint: 'Every reading is multiplied by it. 1 if none is stated.',
    expect: () => ({ what: 'calibration factor', unit: '', min: 0.1, max: 10 }),
  },
  whiteCorrection: correction('white'),
  redCorrection: correction('red'),
  greenCorrection: correction('green'),
  blueCorrection: correction('blue'),
  known: {
    kind: 'choice',
    label: 'Measured',
    isKept: true,
    choices: [
      ['width', 'Width, and the aspect ratio'],
      ['height', 'Height, and the aspect ratio'],
      ['diagonal', 'Diagonal, and the aspect ratio'],
      ['width and height', 'Width and height'],
      ['four sides', 'Four sides and both diagonals'],
    ],
  },
  lengthUnit: {
    kind: 'choice',
    label: 'Unit',
    isKept: true,
    choices: LENGTH_UNITS.map((unit) => [unit, unit] as const),
  },
  length: { ...length('Length', 'one'), hint: 'From edge to edge of the lit image.' },
  aspect: {
    kind: 'aspect',
    label: 'Aspect ratio',
    isRequired: true,
    applies: ({ known }) => ['width', 'height', 'diagonal'].includes(known),
    hint: `${Object.keys(ASPECTS).join(', ')}, or pixels such as 1920x1080.`,
  },
  width: length('Width', 'width and height'),
  height: length('Height', 'width and height'),
  top: length('Top side', 'four sides'),
  right: length('Right side', 'four sides'),
  bottom: length('Bottom side', 'four sides'),
  left: length('Left side', 'four sides'),
  falling: length('Diagonal from top left', 'four sides'),
  rising: length('Diagonal from bottom left', 'four sides'),
  gain: {
    kind: 'number',
    label: 'Screen gain',
    isKept: true,
    hint: '1 for a matt white screen. Only the luminance needs it.',
    expect: () => ({ what: 'screen gain', unit: '', min: 0.05, max: 20 }),
  },
  ratedWhite: {
    kind: 'number',
    label: 'Rated light output, lm',
    hint: 'What the maker or bidder states for white. Leave empty if nothing is stated.',
    expect: () => ({ what: 'rated light output', unit: 'lm', min: 10, max: 1_000_000 }),
  },
  ratedColour: {
    kind: 'number',
    label: 'Rated colour output, lm',
    hint: 'Leave empty if nothing is stated: that is a question to ask, not a zero.',
    expect: () => ({ what: 'rated colour output', unit: 'lm', min: 10, max: 1_000_000 }),
  },
  minimum: {
    kind: 'number',
    label: 'Least part of the rated value, %',
    isKept: true,
    hint: 'Commonly used lower limit; check the edition your contract names.',
    expect: () => ({ what: 'least part', unit: '%', min: 10, max: 200 }),
  },
  standard: {
    kind: 'choice',
    label: 'Signal standard',
    isKept: true,
    hint: 'The colour balance is compared with its white.',
    applies: ({ colour }) => colour !== 'none',
    choices: SIGNAL_STANDARDS.map((standard) => [standard, standard] as const),
  },
  colour: {
    kind: 'choice',
    label: 'Colour',
    isKept: true,
    hint: 'Tiled patterns show all three colours at once, so that a projector cannot boost a full field.',
    choices: [
      ['full fields', 'Full red, green and blue fields'],
      ['tiled patterns', 'Three tiled patterns'],
      ['none', 'White only'],
    ],
  },
  ambient: {
    kind: 'choice',
    label: 'Ambient light',
    isKept: true,
    hint: 'Measured with the projector\u2019s light blocked; it is taken off every reading.',
    choices: [
      ['once', 'Once'],
      ['nine points', 'At each of nine points'],
      ['none', 'Not measured'],
    ],
  },
  black: {
    kind: 'choice',
    label: 'Black field',
    isKept: true,
    hint: 'For the contrast of full white to full black.',
    choices: YES_NO,
  },
  checkerboard: {
    kind: 'choice',
    label: 'Checkerboard',
    isKept: true,
    hint: 'For the contrast within one picture.',
    choices: YES_NO,
  },
  corners: {
    kind: 'choice',
    label: 'Corners, points 10 to 13',
    isKept: true,
    hint: 'For the deviation of thirteen points.',
    choices: YES_NO,
  },
  ...SURE_FIELDS,
};

export const FIELD_IDS = Object.keys(FIELDS) as FieldId[];
