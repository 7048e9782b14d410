import {
  CLASS_F1,
  CLASS_F2,
  CLASS_LINEARITY,
  CLASS_TOTAL,
  DIGITS,
  GAIN,
  LENGTH_FRACTION,
  LENGTH_LEAST,
  PLACING,
  REPEATABILITY,
  ROOM,
  type SPECTRAL,
  SQUARE,
} from '../../src/metrology/run/defaults';
import { MAX_REPEATS, METER_CLASSES } from '../../src/sheets/runsetup';
import { ask, perCent } from './ask';
import type { SetupSpec, SetupTexts, SureFieldId } from './field';

/*
 * What is known of the measurement's uncertainty. Every field may stay empty: beside it stands the cautious value
 * that then counts, from the same constants that the sheet and the model use.
 */

const assumed = (what: string) => `Empty: ${what} is assumed.`;

/** When a field's mismatch is asked for: when the field is read. */
const READ: Partial<Record<keyof typeof SPECTRAL, (texts: SetupTexts) => boolean>> = {
  white: () => true,
  black: ({ black, checkerboard }) => black === 'yes' || checkerboard === 'yes',
};
const isColoured = ({ colour }: SetupTexts) => colour !== 'none';

const mismatch = (colour: keyof typeof SPECTRAL) =>
  ask(`uncertainty.spectral.${colour}`, {
    isKept: true,
    hint: assumed('what meters of such f1\u2032 read wrong on such light'),
    applies: READ[colour] ?? isColoured,
  });
const edge = (side: 'width' | 'height') =>
  ask(`uncertainty.${side}`, {
    hint: assumed(`${perCent(LENGTH_FRACTION)} % of it, at least ${1000 * LENGTH_LEAST} mm,`),
  });

const CLASS_WORDS = METER_CLASSES.map(
  (name) =>
    [
      name,
      name === 'unknown' ? 'Not known' : `${name}, total error ${perCent(CLASS_TOTAL[name])} %`,
    ] as const,
);

export const SURE_FIELDS = {
  repeats: ask('repeats', {
    hint: `Two or more show how much readings scatter. With one, ${perCent(REPEATABILITY)} % of each reading is assumed.`,
    choices: Array.from(
      { length: MAX_REPEATS },
      (_, k) => [String(k + 1), k === 0 ? 'one' : `${k + 1}`] as const,
    ),
  }),
  meterClass: ask('uncertainty.meterClass', {
    isKept: true,
    hint: 'DIN 5032-7:1985. It counts where the meter\u2019s own percentage is empty.',
    choices: CLASS_WORDS,
  }),
  ofReading: ask('uncertainty.ofReading', {
    isKept: true,
    hint: ({ meterClass }) =>
      meterClass === 'unknown'
        ? assumed(`\u00b1 ${perCent(CLASS_TOTAL.C)} %, the widest class,`)
        : assumed(
            `\u00b1 ${perCent(CLASS_TOTAL[meterClass as keyof typeof CLASS_TOTAL])} %, class ${meterClass},`,
          ),
  }),
  statement: ask('uncertainty.statement', {
    isKept: true,
    hint: 'Data sheets state a limit of error, calibration certificates an expanded uncertainty U.',
  }),
  digits: ask('uncertainty.digits', {
    isKept: true,
    hint: assumed(`\u00b1 ${DIGITS} steps of the last digit`),
  }),
  f1: ask('uncertainty.f1', {
    isKept: true,
    hint: ({ meterClass }) =>
      assumed(
        `${perCent(CLASS_F1[meterClass === 'unknown' ? 'C' : (meterClass as keyof typeof CLASS_F1)])} %`,
      ),
  }),
  f2: ask('uncertainty.f2', {
    isKept: true,
    hint: ({ meterClass }) =>
      assumed(
        `${perCent(CLASS_F2[meterClass === 'unknown' ? 'C' : (meterClass as keyof typeof CLASS_F2)])} %`,
      ),
  }),
  repeatability: ask('uncertainty.repeatability', {
    isKept: true,
    hint: `From a meter check, where the meter lies still. ${assumed(`${perCent(REPEATABILITY)} %`)} It counts where no point is read twice.`,
  }),
  repeatabilityReadings: ask('uncertainty.repeatabilityReadings', {
    isKept: true,
    hint: 'How many readings that was found from.',
  }),
  meterCheck: ask('uncertainty.meterCheck', {
    isKept: true,
    hint: 'Where these figures of the meter are from.',
  }),
  light: ask('uncertainty.light', {
    hint: 'The narrower its colours, the more a meter reads them wrong. Unknown counts as the worst.',
  }),
  throwDistance: ask('uncertainty.throwDistance', {
    hint: 'The sensor stands in front of the screen, nearer to the lens, and reads too much. With both distances that is corrected.',
  }),
  sensorHeight: ask('uncertainty.sensorHeight', {
    isKept: true,
    hint: 'From the screen to the sensor\u2019s surface, 20 to 30 mm for most meters.',
  }),
  placing: ask('uncertainty.placing', {
    isKept: true,
    hint: assumed(`\u00b1 ${perCent(PLACING)} % of each reading`),
  }),
  linearity: ask('uncertainty.linearity', {
    isKept: true,
    hint: ({ meterClass }) =>
      assumed(
        `\u00b1 ${perCent(CLASS_LINEARITY[meterClass === 'unknown' ? 'C' : (meterClass as keyof typeof CLASS_LINEARITY)])} %`,
      ),
  }),
  room: ask('uncertainty.room', { hint: assumed(`\u00b1 ${perCent(ROOM)} %`) }),
  whiteMismatch: mismatch('white'),
  redMismatch: mismatch('red'),
  greenMismatch: mismatch('green'),
  blueMismatch: mismatch('blue'),
  blackMismatch: mismatch('black'),
  widthHalf: edge('width'),
  heightHalf: edge('height'),
  squareHalf: ask('uncertainty.square', { hint: assumed(`\u00b1 ${perCent(SQUARE)} %`) }),
  ambientHalf: ask('uncertainty.ambient', {
    hint: ({ ambient }) =>
      assumed(
        ambient === 'none'
          ? '1 % of white, not having been measured,'
          : 'a tenth of it and half a step of the display',
      ),
  }),
  gainHalf: ask('uncertainty.gain', {
    hint: assumed(`\u00b1 ${perCent(GAIN)} %, for the luminance only,`),
  }),
  otherHalf: ask('uncertainty.other', {
    hint: 'Empty: nothing more is added. Say in the sheet\u2019s notes what it is.',
  }),
  level: ask('uncertainty.level', { isKept: true, hint: '95.45 is about two standard deviations.' }),
  rule: ask('uncertainty.rule', {
    isKept: true,
    hint: 'Fixed before the first reading, so that the result cannot choose it. The guard band is how far above the limit a result must lie to pass.',
  }),
} as const satisfies Record<SureFieldId, SetupSpec>;
