import {
  CLASS_TOTAL,
  DIGITS,
  GAIN,
  LENGTH_FRACTION,
  LENGTH_LEAST,
  REPEATABILITY,
  SPECTRAL,
  SQUARE,
} from '../../src/metrology/run/defaults';
import { DECISION_RULES } from '../../src/metrology/words';
import { MAX_REPEATS, METER_CLASSES } from '../../src/sheets/runsetup';
import type { FieldSpec, SureFieldId, Texts } from './field';

/*
 * What is known of the measurement's uncertainty. Every field may stay empty: beside it stands the cautious value
 * that then counts, from the same constants that the sheet and the model use.
 */

const percent = (fraction: number) => Number((100 * fraction).toPrecision(6));
const assumed = (what: string) => `Empty: ${what} is assumed.`;

function part(
  label: string,
  what: string,
  hint: FieldSpec['hint'],
  more: Partial<FieldSpec> = {},
): FieldSpec {
  return {
    ...more,
    kind: 'number',
    label,
    hint,
    expect: () => ({ what, unit: '%', min: 0, max: 100 }),
  } as FieldSpec;
}

/** When a field's mismatch is asked for: when the field is read. */
const READ: Partial<Record<keyof typeof SPECTRAL, (texts: Texts) => boolean>> = {
  white: () => true,
  black: ({ black, checkerboard }) => black === 'yes' || checkerboard === 'yes',
};
const isColoured = ({ colour }: Texts) => colour !== 'none';

function mismatch(colour: keyof typeof SPECTRAL): FieldSpec {
  return part(
    `Spectral mismatch, ${colour}, \u00b1 %`,
    `spectral mismatch in ${colour}`,
    assumed(`\u00b1 ${percent(SPECTRAL[colour])} %`),
    {
      isKept: true,
      applies: READ[colour] ?? isColoured,
    },
  );
}

function edge(side: 'width' | 'height'): FieldSpec {
  return {
    kind: 'number',
    label: `Image ${side}, \u00b1 mm`,
    hint: assumed(`${percent(LENGTH_FRACTION)} % of it, at least ${1000 * LENGTH_LEAST} mm,`),
    expect: () => ({ what: `doubt of the image ${side}`, unit: 'mm', min: 0, max: 1000 }),
  };
}

const CLASS_WORDS = METER_CLASSES.map(
  (name) =>
    [
      name,
      name === 'unknown' ? 'Not known' : `${name}, total error ${percent(CLASS_TOTAL[name])} %`,
    ] as const,
);

export const SURE_FIELDS: Readonly<Record<SureFieldId, FieldSpec>> = {
  repeats: {
    kind: 'choice',
    label: 'Readings of each point',
    hint: `Two or more show how much readings scatter. With one, ${percent(REPEATABILITY)} % of each reading is assumed.`,
    choices: Array.from(
      { length: MAX_REPEATS },
      (_, k) => [String(k + 1), k === 0 ? 'one' : `${k + 1}`] as const,
    ),
  },
  meterClass: {
    kind: 'choice',
    label: 'Class of the meter',
    isKept: true,
    hint: 'DIN 5032-7:1985. It counts where the percentage below is empty.',
    choices: CLASS_WORDS,
  },
  ofReading: part(
    'Meter, \u00b1 % of reading',
    'meter\u2019s part of the reading',
    ({ meterClass }) =>
      meterClass === 'unknown'
        ? assumed(`\u00b1 ${percent(CLASS_TOTAL.C)} %, the widest class,`)
        : assumed(
            `\u00b1 ${percent(CLASS_TOTAL[meterClass as keyof typeof CLASS_TOTAL])} %, class ${meterClass},`,
          ),
    { isKept: true },
  ),
  digits: {
    kind: 'number',
    label: 'Meter, \u00b1 digits',
    isKept: true,
    hint: assumed(`\u00b1 ${DIGITS} steps of the last digit`),
    expect: () => ({ what: 'meter\u2019s digits', unit: '', min: 0, max: 1000 }),
  },
  whiteMismatch: mismatch('white'),
  redMismatch: mismatch('red'),
  greenMismatch: mismatch('green'),
  blueMismatch: mismatch('blue'),
  blackMismatch: mismatch('black'),
  widthHalf: edge('width'),
  heightHalf: edge('height'),
  squareHalf: part(
    'Not square, \u00b1 % of area',
    'doubt of the area',
    assumed(`\u00b1 ${percent(SQUARE)} %`),
  ),
  ambientHalf: {
    kind: 'number',
    label: 'Ambient light, \u00b1 lx',
    hint: ({ ambient }) =>
      assumed(
        ambient === 'none'
          ? '1 % of white, not having been measured,'
          : 'a tenth of it and the meter\u2019s digits',
      ),
    expect: () => ({ what: 'doubt of the ambient light', unit: 'lx', min: 0, max: 100_000 }),
  },
  gainHalf: part(
    'Screen gain, \u00b1 % of it',
    'doubt of the screen gain',
    assumed(`\u00b1 ${percent(GAIN)} %, for the luminance only,`),
  ),
  otherHalf: part(
    'Another cause, \u00b1 % of output',
    'other cause',
    'Empty: nothing more is added. Say in the sheet\u2019s notes what it is.',
  ),
  level: {
    kind: 'number',
    label: 'Level of confidence, %',
    isKept: true,
    hint: '95.45 is about two standard deviations.',
    expect: () => ({ what: 'level of confidence', unit: '%', min: 50, max: 99.99 }),
  },
  rule: {
    kind: 'choice',
    label: 'Decision rule',
    isKept: true,
    hint: 'Fixed before the first reading, so that the result cannot choose it. The guard band is how far above the limit a result must lie to pass.',
    choices: DECISION_RULES.map((rule) => [rule, rule] as const),
  },
};
