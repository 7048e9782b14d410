import { ASPECTS } from '../../src/photometry/image';
import type { LengthUnit } from '../../src/photometry/units';
import type { SetupPath } from '../../src/sheets/setup/path';
import { problemOf } from '../form/field';
import { aspectOf } from '../parse/aspect';
import { ask, imageBounds } from './ask';
import { calibratedBefore, dueAfter } from './calibration';
import type { FieldId, SetupSpec, SetupTexts } from './field';
import { SURE_FIELDS } from './surefields';

/** A length that becomes part of the image together with others. */
function length(label: string, applies: (known: string) => boolean, hint?: string): SetupSpec {
  return {
    kind: 'number',
    label,
    hint,
    needed: true,
    unitIn: 'lengthUnit',
    applies: ({ known }) => applies(known),
    expect: ({ lengthUnit }) => ({
      what: label.toLowerCase(),
      ...imageBounds(lengthUnit as LengthUnit),
    }),
  };
}

const isOneLength = (known: string) => ['width', 'height', 'diagonal'].includes(known);
const isBoth = (known: string) => known === 'width and height';
const side = (path: SetupPath) =>
  ask(path, { needed: true, unitIn: 'lengthUnit', applies: ({ known }) => known === 'four sides' });
const isColoured = ({ colour }: SetupTexts) => colour !== 'none';

export const FIELDS: Readonly<Record<FieldId, SetupSpec>> = {
  projector: ask('projector', { needed: true, hint: 'As the offer or the delivery note calls it.' }),
  serial: ask('serial', { hint: 'From the type plate.' }),
  mode: ask('mode', {
    hint: 'And the light-source setting, as the projector\u2019s menu calls them.',
  }),
  place: ask('place', { isKept: true }),
  measuredBy: ask('measuredBy', { isKept: true }),
  date: ask('date'),
  meterName: ask('meter.name', { isKept: true, hint: 'With its serial or inventory number.' }),
  meterUnit: ask('meter.unit', {
    isKept: true,
    hint: 'What the display shows.',
    choices: [
      ['lx', 'lx (lux)'],
      ['fc', 'fc (footcandle)'],
    ],
  }),
  range: ask('meter.range', {
    isKept: true,
    hint: 'By how much the display is multiplied: 248 on the \u00d7 10 range is 2480. Each reading has its own factor on the sheet.',
    choices: ['0.01', '0.1', '1', '10', '100', '1000'].map((factor) => [factor, `\u00d7 ${factor}`]),
  }),
  digit: ask('meter.digit', {
    isKept: true,
    hint: 'The smallest step of the last digit, such as 1 or 0.1.',
  }),
  calibratedOn: ask('meter.calibratedOn', {
    isKept: true,
    hint: 'From the certificate. Empty if unknown.',
    check: calibratedBefore,
  }),
  certificate: ask('meter.certificate', { isKept: true, hint: 'Its number, and the laboratory.' }),
  dueOn: ask('meter.dueOn', {
    isKept: true,
    hint: 'The day from which the meter ought to have been calibrated anew.',
    check: dueAfter,
  }),
  calibration: ask('meter.calibration', {
    isKept: true,
    hint: 'Every reading is multiplied by it. 1 if none is stated.',
  }),
  whiteCorrection: ask('meter.corrections.white', { isKept: true }),
  redCorrection: ask('meter.corrections.red', { isKept: true, applies: isColoured }),
  greenCorrection: ask('meter.corrections.green', { isKept: true, applies: isColoured }),
  blueCorrection: ask('meter.corrections.blue', { isKept: true, applies: isColoured }),
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
  lengthUnit: ask('image.unit', { isKept: true }),
  length: length('Length', isOneLength, 'From edge to edge of the lit image.'),
  aspect: {
    kind: 'text',
    label: 'Aspect ratio',
    needed: true,
    check: (text) => problemOf(aspectOf(text)),
    applies: ({ known }) => isOneLength(known),
    hint: `${Object.keys(ASPECTS).join(', ')}, or pixels such as 1920x1080.`,
  },
  width: length('Width', isBoth),
  height: length('Height', isBoth),
  top: side('image.top'),
  right: side('image.right'),
  bottom: side('image.bottom'),
  left: side('image.left'),
  falling: side('image.falling'),
  rising: side('image.rising'),
  gain: ask('gain', {
    isKept: true,
    hint: '1 for a matt white screen. Only the luminance needs it.',
  }),
  ratedWhite: ask('rated.white', {
    hint: 'What the maker or bidder states for white. Leave empty if nothing is stated.',
  }),
  ratedColour: ask('rated.colour', {
    hint: 'Leave empty if nothing is stated: that is a question to ask, not a zero.',
  }),
  minimum: ask('rated.minimumFraction', {
    isKept: true,
    hint: 'Commonly used lower limit; check the edition your contract names.',
  }),
  standard: ask('standard', {
    isKept: true,
    hint: 'The colour balance is compared with its white.',
    applies: isColoured,
  }),
  colour: ask('colour', {
    isKept: true,
    hint: 'Tiled patterns show all three colours at once, so that a projector cannot boost a full field.',
    choices: [
      ['full fields', 'Full red, green and blue fields'],
      ['tiled patterns', 'Three tiled patterns'],
      ['none', 'White only'],
    ],
  }),
  ambient: ask('ambient', {
    isKept: true,
    hint: 'Measured with the projector\u2019s light blocked; it is taken off every reading.',
    choices: [
      ['once', 'Once'],
      ['nine points', 'At each of nine points'],
      ['none', 'Not measured'],
    ],
  }),
  black: ask('black', { isKept: true, hint: 'For the contrast of full white to full black.' }),
  checkerboard: ask('checkerboard', { isKept: true, hint: 'For the contrast within one picture.' }),
  corners: ask('corners', { isKept: true, hint: 'For the deviation of thirteen points.' }),
  ...SURE_FIELDS,
};

export const FIELD_IDS = Object.keys(FIELDS) as FieldId[];
