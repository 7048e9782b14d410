import { every } from './every';

/** Full fields, by the stem of their names. */
export const FIELDS = ['White', 'Red', 'Green', 'Blue'] as const;
export const PRIMARIES = ['Red', 'Green', 'Blue'] as const;

/** Second and further readings of each point. */
export const REPEATS = ['Repeat2', 'Repeat3', 'Repeat4', 'Repeat5'] as const;
/** What a field of tiles or a full field has a grid of, beside its first readings. */
export type GridEnd = (typeof REPEATS)[number] | 'Range';

/** What was measured, by whom and with which meter. */
export const MEASURED = [
  'Projector',
  'PictureMode',
  'MeasuredBy',
  'Meter',
  'MeterCertificate',
  'CalibratedOn',
  'CalibrationDue',
] as const;

/** From a number on the display to an illuminance. */
export const METER = ['MeterUnit', 'MeterDigit', 'LuxPerUnit', 'CalibrationFactor'] as const;

export const IMAGE = [
  'KnownLength',
  'ImageLength',
  'LengthUnit',
  'AspectAcross',
  'AspectDown',
  ...every(['Side'], ['Top', 'Right', 'Bottom', 'Left', 'Difference', 'Miss']),
  ...every(['Diagonal'], ['Falling', 'Rising', 'Closing']),
  'ImageWidth',
  'ImageHeight',
  'ImageArea',
] as const;

/** What was asked for, and how it is decided. */
export const ASKED = [
  'RatedWhite',
  'RatedColour',
  'MinimumFraction',
  'Level',
  'DecisionRule',
  'SignalStandard',
  'ScreenGain',
] as const;

/** Half-widths: as typed, and as they are used where nothing was. */
export const HALVES = [
  'MeterClass',
  ...every(
    [
      'MeterOfReading',
      'MeterDigits',
      ...every(FIELDS, ['Mismatch']),
      'WidthHalf',
      'HeightHalf',
      'SquareHalf',
      'AmbientHalf',
      'OtherHalf',
    ],
    ['', 'Used'],
  ),
] as const;

/** What is known of the meter, of where it stands, and of the room; and what follows from it. */
export const CAUSES = [
  ...every(['MeterF1', 'MeterF2', 'RepeatPart', 'PlacingHalf', 'LinearityHalf', 'RoomHalf'], ['', 'Used']),
  'MeterStatement',
  'LightSource',
  'ThrowDistance',
  'SensorHeight',
  'SensorFactor',
  'SensorHalf',
  'ObliqueHalf',
  'MeterCheck',
] as const;
