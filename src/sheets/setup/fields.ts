import { DECISION_RULES, LIGHT_SOURCES, METER_STATEMENTS } from '../../metrology/words';
import {
  type Bounds,
  DISPLAY_STEP,
  FACTOR,
  GAIN,
  IMAGE_METRES,
  LEAST_PART,
  RANGE_FACTOR,
  RATED_LUMENS,
  TINY,
} from '../../photometry/bounds';
import { SIGNAL_STANDARDS } from '../../photometry/colour';
import { KNOWN_LENGTHS } from '../../photometry/image';
import { ILLUMINANCE_UNITS, LENGTH_UNITS, METRES } from '../../photometry/units';
import type { CellName } from '../names/all';
import { stemOf } from '../names/stem';
import {
  AMBIENTS,
  COLOUR_FIELDS,
  defaultRunSetup,
  IMAGE_SHAPES,
  MAX_REPEATS,
  METER_CLASSES,
} from '../runsetup';
import { type SetupPath, type SetupValue, valueAt } from './path';

/*
 * The fields of a run's set-up, each stated once: the form asks for them, sheets have cells for them, files and
 * templates take them, and readers find them again on a sheet. What is usual stands in `defaultRunSetup`.
 */

interface Common {
  /** As the form and the sheet call it; the unit is added where it stands beside no column of units. */
  readonly label: string;
  /** Name of its cell on a sheet; none where the layout itself tells it. */
  readonly name?: CellName;
}
export interface TextField extends Common {
  readonly kind: 'text';
}
export interface DateField extends Common {
  readonly kind: 'date';
}
export interface ChoiceField extends Common {
  readonly kind: 'choice';
  readonly choices: readonly string[];
}
export interface TruthField extends Common {
  readonly kind: 'truth';
}
export interface NumberField extends Common {
  readonly kind: 'number';
  readonly bounds: Bounds;
  /** '%' is a part of 1 that people type as per cent; 'length' the unit on the tape. */
  readonly unit: '' | '%' | 'lm' | 'lx' | 'mm' | 'm' | 'digits' | 'length';
  readonly isWhole?: true;
}
export type SetupField = TextField | DateField | ChoiceField | TruthField | NumberField;

/** Longest text of one cell, in characters: two lines of the sheet. */
export const TEXT_MAX = 120;
/** An earlier date is a slip of the hand: no meter in use was calibrated before. */
export const FIRST_DATE = '2000-01-01';

/** A length in whatever unit the tape has, as its cell takes it: an image's bounds from metres to millimetres. */
const ANY_LENGTH: Bounds = { min: IMAGE_METRES.min / METRES.m, max: IMAGE_METRES.max / METRES.mm };
/** A half-width as a part of what it belongs to: from exact to as large as the thing itself. */
const PART: Bounds = { min: 0, max: 1 };
/** Scatter of one reading: never none. */
const SCATTER: Bounds = { min: TINY, max: 1 };
/** Data sheets name some digits, coarse ones some tens. */
const DIGITS: Bounds = { min: 0, max: 1000 };
/** A tape is never a metre off. */
const EDGE_MM: Bounds = { min: 0, max: 1000 };
/** Beyond a half a meter measures something else than V(λ). */
const F1: Bounds = { min: 0, max: 0.5 };
/** From a lens just before the screen to the back of the largest hall, m. */
const THROW: Bounds = { min: 0.1, max: 200 };
/** A sensor in its housing, held against the screen. */
const SENSOR_MM: Bounds = { min: 0, max: 300 };
/** Up to full sunlight. */
const AMBIENT_LUX: Bounds = { min: 0, max: 100_000 };
/** Half is the toss of a coin; beyond four nines the tails of no budget are known. */
export const LEVEL: Bounds = { min: 0.5, max: 0.9999 };

type Coloured = 'white' | 'red' | 'green' | 'blue';
const text = (name: CellName, label: string): TextField => ({ kind: 'text', name, label });
const date = (name: CellName, label: string): DateField => ({ kind: 'date', name, label });
const choice = (name: CellName | undefined, label: string, choices: readonly string[]): ChoiceField => ({
  kind: 'choice',
  ...(name ? { name } : {}),
  label,
  choices,
});
const truth = (label: string): TruthField => ({ kind: 'truth', label });
const number = (name: CellName, label: string, bounds: Bounds, unit: NumberField['unit']): NumberField => ({
  kind: 'number',
  name,
  label,
  bounds,
  unit,
});
const length = (name: CellName, label: string) => number(name, label, ANY_LENGTH, 'length');
const spectral = (colour: Coloured) =>
  number(`${stemOf(colour)}Spectral`, `Spectral correction, ${colour}`, FACTOR, '');
const mismatch = (colour: Coloured | 'black') =>
  number(`${stemOf(colour)}Mismatch`, `Spectral mismatch, ${colour} ±`, PART, '%');
const edge = (side: 'Width' | 'Height') =>
  number(`${side}Half`, `Image ${side.toLowerCase()} ±`, EDGE_MM, 'mm');

export const SETUP_FIELDS = {
  projector: text('Projector', 'Projector'),
  serial: text('SerialNumber', 'Serial number'),
  mode: text('PictureMode', 'Picture mode'),
  place: text('Place', 'Place'),
  measuredBy: text('MeasuredBy', 'Measured by'),
  date: date('MeasuredOn', 'Date'),
  'meter.name': text('Meter', 'Meter'),
  'meter.unit': choice('MeterUnit', 'Unit on the display', ILLUMINANCE_UNITS),
  // Each reading has a range factor of its own on the sheet.
  'meter.range': {
    kind: 'number',
    label: 'Range factor to start with',
    bounds: RANGE_FACTOR,
    unit: '',
  },
  'meter.digit': number('MeterDigit', 'Display step at × 1', DISPLAY_STEP, ''),
  'meter.calibratedOn': date('CalibratedOn', 'Meter calibrated on'),
  'meter.certificate': text('MeterCertificate', 'Calibration certificate'),
  'meter.dueOn': date('CalibrationDue', 'Calibration due on'),
  'meter.calibration': number('CalibrationFactor', 'Calibration factor', FACTOR, ''),
  'meter.corrections.white': spectral('white'),
  'meter.corrections.red': spectral('red'),
  'meter.corrections.green': spectral('green'),
  'meter.corrections.blue': spectral('blue'),
  'image.shape': choice(undefined, 'Shape of the image', IMAGE_SHAPES),
  'image.known': choice('KnownLength', 'Known length', KNOWN_LENGTHS),
  'image.length': length('ImageLength', 'Length'),
  'image.unit': choice('LengthUnit', 'Unit of lengths', LENGTH_UNITS),
  'image.across': length('AspectAcross', 'Aspect ratio, across'),
  'image.down': length('AspectDown', 'Aspect ratio, down'),
  'image.top': length('SideTop', 'Top side'),
  'image.right': length('SideRight', 'Right side'),
  'image.bottom': length('SideBottom', 'Bottom side'),
  'image.left': length('SideLeft', 'Left side'),
  'image.falling': length('DiagonalFalling', 'Diagonal, top left down'),
  'image.rising': length('DiagonalRising', 'Diagonal, top right down'),
  gain: number('ScreenGain', 'Screen gain', GAIN, ''),
  'rated.white': number('RatedWhite', 'Rated light output', RATED_LUMENS, 'lm'),
  'rated.colour': number('RatedColour', 'Rated colour output', RATED_LUMENS, 'lm'),
  'rated.minimumFraction': number('MinimumFraction', 'Least part of rated value', LEAST_PART, '%'),
  standard: choice('SignalStandard', 'Signal standard', SIGNAL_STANDARDS),
  colour: choice(undefined, 'Colour', COLOUR_FIELDS),
  ambient: choice(undefined, 'Ambient light', AMBIENTS),
  black: truth('Black field'),
  checkerboard: truth('Checkerboard'),
  corners: truth('Corners, points 10 to 13'),
  repeats: {
    kind: 'number',
    label: 'Readings of each point',
    bounds: { min: 1, max: MAX_REPEATS },
    unit: '',
    isWhole: true,
  },
  'uncertainty.meterClass': choice('MeterClass', 'Meter class', METER_CLASSES),
  'uncertainty.ofReading': number('MeterOfReading', 'Meter, ± of reading', PART, '%'),
  'uncertainty.statement': choice('MeterStatement', 'What that percentage is', METER_STATEMENTS),
  'uncertainty.f1': number('MeterF1', 'Meter, f1′', F1, '%'),
  'uncertainty.f2': number('MeterF2', 'Meter, cosine f2', F1, '%'),
  'uncertainty.light': choice('LightSource', 'Kind of light source', LIGHT_SOURCES),
  'uncertainty.digits': number('MeterDigits', 'Meter, ± digits', DIGITS, 'digits'),
  'uncertainty.spectral.white': mismatch('white'),
  'uncertainty.spectral.red': mismatch('red'),
  'uncertainty.spectral.green': mismatch('green'),
  'uncertainty.spectral.blue': mismatch('blue'),
  'uncertainty.spectral.black': mismatch('black'),
  'uncertainty.width': edge('Width'),
  'uncertainty.height': edge('Height'),
  'uncertainty.square': number('SquareHalf', 'Image not square, area ±', PART, '%'),
  'uncertainty.ambient': number('AmbientHalf', 'Ambient illuminance ±', AMBIENT_LUX, 'lx'),
  'uncertainty.placing': number('PlacingHalf', 'Placing of the meter ±', PART, '%'),
  'uncertainty.repeatability': number('RepeatPart', 'Repeatability of a reading, s', SCATTER, '%'),
  'uncertainty.repeatabilityReadings': {
    kind: 'number',
    name: 'RepeatCount',
    label: 'from so many readings',
    bounds: { min: 2, max: 1000 },
    unit: '',
    isWhole: true,
  },
  'uncertainty.meterCheck': text('MeterCheck', 'Meter check'),
  'uncertainty.linearity': number('LinearityHalf', 'Linearity, range step ±', PART, '%'),
  'uncertainty.room': number('RoomHalf', 'Light the room sends back ±', PART, '%'),
  'uncertainty.throwDistance': number('ThrowDistance', 'Lens to screen', THROW, 'm'),
  'uncertainty.sensorHeight': number('SensorHeight', 'Sensor in front of screen', SENSOR_MM, 'mm'),
  'uncertainty.gain': number('GainHalf', 'Screen gain ±', PART, '%'),
  'uncertainty.other': number('OtherHalf', 'Another cause, output ±', PART, '%'),
  'uncertainty.level': number('Level', 'Level of confidence', LEVEL, '%'),
  'uncertainty.rule': choice('DecisionRule', 'Decision rule', DECISION_RULES),
} as const satisfies Readonly<Record<SetupPath, SetupField>>;

export const SETUP_PATHS = Object.keys(SETUP_FIELDS) as SetupPath[];

/** Paths of the fields of one kind. */
export type PathOfKind<K extends SetupField['kind']> = {
  [P in SetupPath]: (typeof SETUP_FIELDS)[P] extends { readonly kind: K } ? P : never;
}[SetupPath];

/** What is usual; undefined where nothing is, and the field is left empty. */
export function usual<P extends SetupPath>(path: P): SetupValue<P> | undefined {
  return valueAt(defaultRunSetup(), path);
}
