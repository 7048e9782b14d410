import {
  DECISION_RULES,
  DEFAULT_LEVEL,
  type DecisionRule,
  LIGHT_SOURCES,
  type LightSourceChoice,
  METER_STATEMENTS,
  type MeterStatement,
} from '../metrology/words';
import type { KnownLength } from '../photometry/image';
import type { IlluminanceUnit, LengthUnit } from '../photometry/units';

/** What is known before the first reading: one projector in one mode, one meter, one image. */
export interface RunSetup {
  readonly projector: string;
  readonly serial: string;
  /** Picture mode and lamp or source setting, as the projector's menu calls them. */
  readonly mode: string;
  readonly place: string;
  readonly measuredBy: string;
  /** ISO date, 2026-11-25; empty if not stated. */
  readonly date: string;
  readonly meter: MeterSetup;
  readonly image: ImageSetup;
  /** Screen gain; 1 for a matt white screen. */
  readonly gain: number;
  readonly rated: RatedSetup;
  /** Signal standard whose white the colour balance is compared with. */
  readonly standard: string;
  readonly colour: ColourFields;
  readonly ambient: AmbientReading;
  readonly black: boolean;
  readonly checkerboard: boolean;
  readonly corners: boolean;
  /** How often each point of the white and colour fields is read, 1 to 5. */
  readonly repeats: number;
  readonly uncertainty: UncertaintySetup;
}

/**
 * What is known of the measurement's uncertainty, as half-widths. Whatever is left out gets a cautious value on
 * the sheet, which says that it was assumed.
 */
export interface UncertaintySetup {
  /** Class of DIN 5032-7:1985, standing in for an unknown fraction of the reading. */
  readonly meterClass: MeterClassChoice;
  /** Fraction of the reading, 0.03 for ± 3 %. */
  readonly ofReading?: number;
  /** What that fraction is: a bound, or a certificate's U. */
  readonly statement: MeterStatement;
  /** ± so many steps of the display's last digit. */
  readonly digits?: number;
  /** Index f1′ of the meter's V(λ) mismatch, as a fraction. */
  readonly f1?: number;
  readonly light: LightSourceChoice;
  /** Fraction by which the spectral correction of a field may be off. */
  readonly spectral?: Readonly<Partial<Record<'white' | 'red' | 'green' | 'blue' | 'black', number>>>;
  /** Image width and height, in millimetres; both edges together. */
  readonly width?: number;
  readonly height?: number;
  /** Fraction by which the area may be off because the image is not square. */
  readonly square?: number;
  /** Ambient illuminance, lux. */
  readonly ambient?: number;
  /** Placing and tilt of the meter, as a part of each reading. */
  readonly placing?: number;
  /** Index f2 of the meter's cosine response, as a fraction. */
  readonly f2?: number;
  /** Scatter of one reading as a part of it (a standard deviation), and from how many readings. */
  readonly repeatability?: number;
  readonly repeatabilityReadings?: number;
  /** Where figures of the meter are from: its check against itself, with day and figures. Empty if from none. */
  readonly meterCheck?: string;
  /** Linearity and range step of the meter, as a part of a field's readings. */
  readonly linearity?: number;
  /** Light that the room sends back, as a part of the output. */
  readonly room?: number;
  /** From the lens to the screen, metres. */
  readonly throwDistance?: number;
  /** From the screen to the meter's sensor, millimetres. */
  readonly sensorHeight?: number;
  /** Part of the screen gain by which it may be off. */
  readonly gain?: number;
  /** One cause of the user's own that bears on every light output, as a fraction. */
  readonly other?: number;
  /** Level of confidence, 0.9545 for about two standard deviations. */
  readonly level: number;
  readonly rule: DecisionRule;
}
export type MeterClassChoice = 'unknown' | 'L' | 'A' | 'B' | 'C';
export const METER_CLASSES: readonly MeterClassChoice[] = ['unknown', 'L', 'A', 'B', 'C'];
export const MAX_REPEATS = 5;

/** Full red, green and blue fields; the three tiled patterns; or white only. */
export type ColourFields = 'full fields' | 'tiled patterns' | 'none';
export const COLOUR_FIELDS: readonly ColourFields[] = ['full fields', 'tiled patterns', 'none'];

/** How often the room's own light is read. */
type AmbientReading = 'none' | 'once' | 'nine points';
export const AMBIENTS: readonly AmbientReading[] = ['none', 'once', 'nine points'];

export interface MeterSetup {
  readonly name: string;
  readonly unit: IlluminanceUnit;
  /** Range factor the readings start with; each can be changed on the sheet. */
  readonly range: number;
  /** Step of the display's last digit at range factor 1. */
  readonly digit: number;
  /** ISO date of the last calibration; empty if unknown. */
  readonly calibratedOn: string;
  /** Number of the calibration certificate, and ISO date by which the next one is due. */
  readonly certificate?: string;
  readonly dueOn?: string;
  /** Calibration factor, and spectral correction for each field; 1 where unknown. */
  readonly calibration: number;
  readonly corrections: Readonly<Record<'white' | 'red' | 'green' | 'blue', number>>;
}

export type ImageSetup = RectangleSetup | FourSidedSetup;
export const IMAGE_SHAPES: readonly ImageSetup['shape'][] = ['rectangle', 'four sides'];
interface RectangleSetup {
  readonly shape: 'rectangle';
  readonly known: KnownLength;
  readonly length: number;
  readonly unit: LengthUnit;
  /** Aspect ratio as two numbers; a measured width and height serve as well. */
  readonly across: number;
  readonly down: number;
}
/** For an image that is not square: four sides in order round the image, and both diagonals. */
interface FourSidedSetup {
  readonly shape: 'four sides';
  readonly unit: LengthUnit;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
  readonly falling: number;
  readonly rising: number;
}

interface RatedSetup {
  /** Rated light output in lumens; undefined where the maker states none: a question, not a zero. */
  readonly white?: number;
  readonly colour?: number;
  /** Commonly used lower limit; check the edition your contract names. */
  readonly minimumFraction: number;
}

/** Sensible start for a new run. */
export function defaultRunSetup(): RunSetup {
  return {
    projector: '',
    serial: '',
    mode: '',
    place: '',
    measuredBy: '',
    date: '',
    meter: {
      name: '',
      unit: 'lx',
      range: 1,
      digit: 1,
      calibratedOn: '',
      calibration: 1,
      corrections: { white: 1, red: 1, green: 1, blue: 1 },
    },
    image: { shape: 'rectangle', known: 'width', length: 1.6, unit: 'm', across: 16, down: 10 },
    gain: 1,
    rated: { minimumFraction: 0.8 },
    standard: 'BT.709',
    colour: 'full fields',
    ambient: 'once',
    black: true,
    checkerboard: false,
    corners: false,
    repeats: 1,
    uncertainty: {
      meterClass: 'unknown',
      statement: METER_STATEMENTS[0],
      light: LIGHT_SOURCES[0],
      level: DEFAULT_LEVEL,
      rule: DECISION_RULES[0],
    },
  };
}
