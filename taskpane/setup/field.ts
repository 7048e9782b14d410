import type { SetupPath } from '../../src/sheets/setup/path';
import type { FieldSpec, Texts } from '../form/field';

/** Every field of the set-up form. */
export type FieldId =
  | 'projector'
  | 'serial'
  | 'mode'
  | 'place'
  | 'measuredBy'
  | 'date'
  | 'meterName'
  | 'meterUnit'
  | 'range'
  | 'digit'
  | 'calibratedOn'
  | 'certificate'
  | 'dueOn'
  | 'calibration'
  | 'whiteCorrection'
  | 'redCorrection'
  | 'greenCorrection'
  | 'blueCorrection'
  | 'known'
  | 'lengthUnit'
  | 'length'
  | 'aspect'
  | 'width'
  | 'height'
  | 'top'
  | 'right'
  | 'bottom'
  | 'left'
  | 'falling'
  | 'rising'
  | 'gain'
  | 'ratedWhite'
  | 'ratedColour'
  | 'minimum'
  | 'standard'
  | 'colour'
  | 'ambient'
  | 'black'
  | 'checkerboard'
  | 'corners'
  | SureFieldId;

/** Those of the measurement's uncertainty. */
export type SureFieldId =
  | 'repeats'
  | 'meterClass'
  | 'ofReading'
  | 'statement'
  | 'f1'
  | 'f2'
  | 'repeatability'
  | 'repeatabilityReadings'
  | 'meterCheck'
  | 'light'
  | 'placing'
  | 'linearity'
  | 'room'
  | 'throwDistance'
  | 'sensorHeight'
  | 'digits'
  | 'whiteMismatch'
  | 'redMismatch'
  | 'greenMismatch'
  | 'blueMismatch'
  | 'blackMismatch'
  | 'widthHalf'
  | 'heightHalf'
  | 'squareHalf'
  | 'ambientHalf'
  | 'gainHalf'
  | 'otherHalf'
  | 'level'
  | 'rule';

export type SetupTexts = Texts<FieldId>;

/** What a field of the set-up is beside a field of any form. */
export interface OfSetup {
  /** Where its value goes in the set-up; some of the image's fields make theirs together. */
  readonly path?: SetupPath;
  /** Kept for the next time: what belongs to the person and the meter, not to this measurement. */
  readonly isKept?: boolean;
}
export type SetupSpec = FieldSpec<FieldId> & OfSetup;
