import { DEFAULT_LEVEL, type DecisionRule } from '../../src/metrology/words';
import { type KnownLength, parseAspect } from '../../src/photometry/image';
import type { IlluminanceUnit, LengthUnit } from '../../src/photometry/units';
import type {
  ColourFields,
  ImageSetup,
  MeterClassChoice,
  MeterSetup,
  RunSetup,
  UncertaintySetup,
} from '../../src/sheets/runsetup';
import type { Check } from './check';
import type { FieldId, Texts } from './field';

export type Checks = Readonly<Record<FieldId, Check>>;

/** The image part of the set-up; undefined while a length is missing or not fit. */
export function assembleImage(texts: Texts, checks: Checks): ImageSetup | undefined {
  const unit = texts.lengthUnit as LengthUnit;
  const of = (...ids: FieldId[]) => {
    const values = ids.map((id) => checks[id].value);
    return values.every((value) => value !== undefined) ? (values as number[]) : undefined;
  };
  if (texts.known === 'four sides') {
    const sides = of('top', 'right', 'bottom', 'left', 'falling', 'rising');
    if (!sides) return undefined;
    const [top, right, bottom, left, falling, rising] = sides as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    return { shape: 'four sides', unit, top, right, bottom, left, falling, rising };
  }
  if (texts.known === 'width and height') {
    const sizes = of('width', 'height');
    if (!sizes) return undefined;
    const [across, down] = sizes as [number, number];
    return { shape: 'rectangle', known: 'width', length: across, unit, across, down };
  }
  const length = of('length')?.[0];
  const aspect = parseAspect(texts.aspect.replace(/(\d),(\d)/g, '$1.$2'));
  if (length === undefined || !aspect.ok) return undefined;
  return { shape: 'rectangle', known: texts.known as KnownLength, length, unit, ...aspect.value };
}

/** Checked texts → set-up; undefined while anything is not fit. */
export function assemble(texts: Texts, checks: Checks): RunSetup | undefined {
  const isFit = Object.values(checks).every(({ error, question }) => !error && !question);
  const image = assembleImage(texts, checks);
  if (!isFit || !image) return undefined;
  const text = (id: FieldId) => texts[id].trim();
  const factor = (id: FieldId) => checks[id].value ?? 1;
  const { ratedWhite, ratedColour } = checks;
  return {
    projector: text('projector'),
    serial: text('serial'),
    mode: text('mode'),
    place: text('place'),
    measuredBy: text('measuredBy'),
    date: texts.date,
    meter: meterOf(texts, checks),
    image,
    gain: factor('gain'),
    rated: {
      ...(ratedWhite.value === undefined ? {} : { white: ratedWhite.value }),
      ...(ratedColour.value === undefined ? {} : { colour: ratedColour.value }),
      minimumFraction: (checks.minimum.value ?? 80) / 100,
    },
    standard: texts.standard,
    colour: texts.colour as ColourFields,
    ambient: texts.ambient as RunSetup['ambient'],
    black: texts.black === 'yes',
    checkerboard: texts.checkerboard === 'yes',
    corners: texts.corners === 'yes',
    repeats: Number(texts.repeats),
    uncertainty: assembleUncertainty(texts, checks),
  };
}

/** The meter of the form; undefined while one of its fields is not fit. */
export function assembleMeter(texts: Texts, checks: Checks): MeterSetup | undefined {
  const isFit = METER_FIELDS.every((id) => !checks[id].error && !checks[id].question);
  return isFit ? meterOf(texts, checks) : undefined;
}

const METER_FIELDS: readonly FieldId[] = [
  'meterName',
  'meterUnit',
  'range',
  'digit',
  'calibratedOn',
  'calibration',
  'whiteCorrection',
  'redCorrection',
  'greenCorrection',
  'blueCorrection',
];

function meterOf(texts: Texts, checks: Checks): MeterSetup {
  const factor = (id: FieldId) => checks[id].value ?? 1;
  return {
    name: texts.meterName.trim(),
    unit: texts.meterUnit as IlluminanceUnit,
    range: Number(texts.range),
    digit: factor('digit'),
    calibratedOn: texts.calibratedOn,
    calibration: factor('calibration'),
    corrections: {
      white: factor('whiteCorrection'),
      red: factor('redCorrection'),
      green: factor('greenCorrection'),
      blue: factor('blueCorrection'),
    },
  };
}

/** What was left empty stays undefined: the sheet then takes its cautious value and says so. */
export function assembleUncertainty(texts: Texts, checks: Checks): UncertaintySetup {
  const fraction = (id: FieldId) => {
    const { value } = checks[id];
    return value === undefined ? undefined : value / 100;
  };
  return {
    meterClass: texts.meterClass as MeterClassChoice,
    ofReading: fraction('ofReading'),
    digits: checks.digits.value,
    spectral: {
      white: fraction('whiteMismatch'),
      red: fraction('redMismatch'),
      green: fraction('greenMismatch'),
      blue: fraction('blueMismatch'),
      black: fraction('blackMismatch'),
    },
    width: checks.widthHalf.value,
    height: checks.heightHalf.value,
    square: fraction('squareHalf'),
    ambient: checks.ambientHalf.value,
    gain: fraction('gainHalf'),
    other: fraction('otherHalf'),
    level: fraction('level') ?? DEFAULT_LEVEL,
    rule: texts.rule as DecisionRule,
  };
}
