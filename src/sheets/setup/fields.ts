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
  /** What a person is told who stands in the cell. */
  readonly why?: string;
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
const text = (name: CellName, label: string, why: string): TextField => ({ kind: 'text', name, label, why });
const date = (name: CellName, label: string, why: string): DateField => ({ kind: 'date', name, label, why });
const choice = (
  name: CellName | undefined,
  label: string,
  choices: readonly string[],
  why = '',
): ChoiceField => ({ kind: 'choice', ...(name ? { name, why } : {}), label, choices });
const truth = (label: string): TruthField => ({ kind: 'truth', label });
const number = (
  name: CellName,
  label: string,
  bounds: Bounds,
  unit: NumberField['unit'],
  why: string,
): NumberField => ({ kind: 'number', name, label, bounds, unit, why });
const length = (
  name: CellName,
  label: string,
  why = 'Edge to edge of the lit image, with a tape, in the unit given.',
) => number(name, label, ANY_LENGTH, 'length', why);
const spectral = (colour: Coloured) =>
  number(
    `${stemOf(colour)}Spectral`,
    `Spectral correction, ${colour}`,
    FACTOR,
    '',
    'Factor for this colour from the meter’s certificate; 1 if unknown. Even a good meter errs by several per cent in red and blue.',
  );
const mismatch = (colour: Coloured | 'black') =>
  number(
    `${stemOf(colour)}Mismatch`,
    `Spectral mismatch, ${colour} ±`,
    PART,
    '%',
    'By which part of the reading the spectral correction of this colour may be off.',
  );
const edge = (side: 'Width' | 'Height') =>
  number(
    `${side}Half`,
    `Image ${side.toLowerCase()} ±`,
    EDGE_MM,
    'mm',
    'Tape and blurred edge, both ends together, in millimetres.',
  );

export const SETUP_FIELDS = {
  projector: text('Projector', 'Projector', 'What was measured, as the offer or the delivery note calls it.'),
  serial: text('SerialNumber', 'Serial number', 'From the type plate. It is kept as text.'),
  mode: text(
    'PictureMode',
    'Picture mode',
    'Picture mode and light-source setting, as the projector’s menu calls them.',
  ),
  place: text('Place', 'Place', 'Where it was measured.'),
  measuredBy: text('MeasuredBy', 'Measured by', 'Who held the meter.'),
  date: date('MeasuredOn', 'Date', 'The day of the measurement.'),
  'meter.name': text('Meter', 'Meter', 'Which illuminance meter, with its inventory or serial number.'),
  'meter.unit': choice(
    'MeterUnit',
    'Unit on the display',
    ILLUMINANCE_UNITS,
    'lx (lux) or fc (footcandle): what the display shows. All results are in lux and lumens.',
  ),
  // Each reading has a range factor of its own on the sheet.
  'meter.range': {
    kind: 'number',
    label: 'Range factor to start with',
    bounds: RANGE_FACTOR,
    unit: '',
  },
  'meter.digit': number(
    'MeterDigit',
    'Display step at × 1',
    DISPLAY_STEP,
    '',
    'The step of the display’s last digit in the lowest range, e.g. 0.1 or 1.',
  ),
  'meter.calibratedOn': date(
    'CalibratedOn',
    'Meter calibrated on',
    'Date on the calibration certificate. Older than a year: the sheet says so.',
  ),
  'meter.calibration': number(
    'CalibrationFactor',
    'Calibration factor',
    FACTOR,
    '',
    'Factor from the certificate by which every reading is multiplied; 1 if none is stated.',
  ),
  'meter.corrections.white': spectral('white'),
  'meter.corrections.red': spectral('red'),
  'meter.corrections.green': spectral('green'),
  'meter.corrections.blue': spectral('blue'),
  'image.shape': choice(undefined, 'Shape of the image', IMAGE_SHAPES),
  'image.known': choice(
    'KnownLength',
    'Known length',
    KNOWN_LENGTHS,
    'Which length was measured; the others follow from the aspect ratio.',
  ),
  'image.length': length('ImageLength', 'Length'),
  'image.unit': choice('LengthUnit', 'Unit of lengths', LENGTH_UNITS, 'The unit on the tape.'),
  'image.across': length(
    'AspectAcross',
    'Aspect ratio, across',
    'First number of the aspect ratio, e.g. 16 of 16:9; a measured width serves as well.',
  ),
  'image.down': length(
    'AspectDown',
    'Aspect ratio, down',
    'Second number of the aspect ratio, e.g. 9 of 16:9; a measured height serves as well.',
  ),
  'image.top': length('SideTop', 'Top side'),
  'image.right': length('SideRight', 'Right side'),
  'image.bottom': length('SideBottom', 'Bottom side'),
  'image.left': length('SideLeft', 'Left side'),
  'image.falling': length('DiagonalFalling', 'Diagonal, top left down'),
  'image.rising': length('DiagonalRising', 'Diagonal, top right down'),
  gain: number(
    'ScreenGain',
    'Screen gain',
    GAIN,
    '',
    'Gain of the screen in the direction of the audience; 1 for matt white.',
  ),
  'rated.white': number(
    'RatedWhite',
    'Rated light output',
    RATED_LUMENS,
    'lm',
    'What the maker or bidder states for white. Leave empty if none is stated.',
  ),
  'rated.colour': number(
    'RatedColour',
    'Rated colour output',
    RATED_LUMENS,
    'lm',
    'What the maker or bidder states for colour. Leave empty if none is stated: that is a question to ask.',
  ),
  'rated.minimumFraction': number(
    'MinimumFraction',
    'Least part of rated value',
    LEAST_PART,
    '%',
    'Commonly used lower limit: 80 %. Check the edition of the standard your contract names.',
  ),
  standard: choice(
    'SignalStandard',
    'Signal standard',
    SIGNAL_STANDARDS,
    'The standard whose white the colour balance is compared with.',
  ),
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
  'uncertainty.meterClass': choice(
    'MeterClass',
    'Meter class',
    METER_CLASSES,
    'Class of DIN 5032-7:1985, if the meter has one: L, A, B or C. Used where its percentage is not known.',
  ),
  'uncertainty.ofReading': number(
    'MeterOfReading',
    'Meter, ± of reading',
    PART,
    '%',
    'What the meter’s data sheet or certificate states, e.g. 3 %.',
  ),
  'uncertainty.statement': choice(
    'MeterStatement',
    'What that percentage is',
    METER_STATEMENTS,
    'A data sheet states a limit of error; a calibration certificate an expanded uncertainty with k = 2.',
  ),
  'uncertainty.f1': number(
    'MeterF1',
    'Meter, f1′',
    F1,
    '%',
    'How far the meter’s colours are off those of the eye, as its data sheet or certificate states it (general V(λ) mismatch index).',
  ),
  'uncertainty.light': choice(
    'LightSource',
    'Kind of light source',
    LIGHT_SOURCES,
    'The narrower the colours of the light, the more a meter reads them wrong.',
  ),
  'uncertainty.digits': number(
    'MeterDigits',
    'Meter, ± digits',
    DIGITS,
    'digits',
    'How many steps of the last digit the data sheet adds to the percentage.',
  ),
  'uncertainty.spectral.white': mismatch('white'),
  'uncertainty.spectral.red': mismatch('red'),
  'uncertainty.spectral.green': mismatch('green'),
  'uncertainty.spectral.blue': mismatch('blue'),
  'uncertainty.spectral.black': mismatch('black'),
  'uncertainty.width': edge('Width'),
  'uncertainty.height': edge('Height'),
  'uncertainty.square': number(
    'SquareHalf',
    'Image not square, area ±',
    PART,
    '%',
    'By which part the area may be off because the image is not a rectangle.',
  ),
  'uncertainty.ambient': number(
    'AmbientHalf',
    'Ambient illuminance ±',
    AMBIENT_LUX,
    'lx',
    'Apart from the meter’s own percentage.',
  ),
  'uncertainty.placing': number(
    'PlacingHalf',
    'Placing of the meter ±',
    PART,
    '%',
    'Each reading: where the sensor is held and how it is tilted. Repeats in one place do not show it.',
  ),
  'uncertainty.linearity': number(
    'LinearityHalf',
    'Linearity, range step ±',
    PART,
    '%',
    'All readings of one field: from one range of the meter to another, and from bright fields to dim ones.',
  ),
  'uncertainty.room': number(
    'RoomHalf',
    'Light the room sends back ±',
    PART,
    '%',
    'Walls, floor and people send a part of the image’s light back onto it; no reading in the dark shows it.',
  ),
  'uncertainty.throwDistance': number(
    'ThrowDistance',
    'Lens to screen',
    THROW,
    'm',
    'Throw distance, in metres. With the height of the sensor it corrects for a sensor that stands in front of the screen.',
  ),
  'uncertainty.sensorHeight': number(
    'SensorHeight',
    'Sensor in front of screen',
    SENSOR_MM,
    'mm',
    'How far the sensor’s surface stands in front of the screen, in millimetres.',
  ),
  'uncertainty.gain': number(
    'GainHalf',
    'Screen gain ±',
    PART,
    '%',
    'By which part the gain stated in the set-up may be off. Only the luminance rests on it.',
  ),
  'uncertainty.other': number(
    'OtherHalf',
    'Another cause, output ±',
    PART,
    '%',
    'One cause of your own that bears on every light output alike; say in the notes what it is.',
  ),
  'uncertainty.level': number(
    'Level',
    'Level of confidence',
    LEVEL,
    '%',
    '95.45 % is about two standard deviations, k = 2.',
  ),
  'uncertainty.rule': choice(
    'DecisionRule',
    'Decision rule',
    DECISION_RULES,
    'Fix it before the readings (ISO/IEC 17025, 7.1.3). Guard band: how far above the limit a result must lie to pass.',
  ),
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
