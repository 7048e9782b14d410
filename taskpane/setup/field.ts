import type { SetupPath } from '../../src/sheets/setup/path';
import type { Expectation } from '../parse/quantity';

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

export type Texts = Readonly<Record<FieldId, string>>;

export interface Common {
  /** Where its value goes in the set-up; some of the image's fields make theirs together. */
  readonly path?: SetupPath;
  readonly label: string;
  readonly hint?: string | ((texts: Texts) => string) | undefined;
  readonly isRequired?: boolean;
  /** Kept for the next time: what belongs to the person and the meter, not to this measurement. */
  readonly isKept?: boolean;
  /** False where the other answers make the field meaningless. */
  readonly applies?: (texts: Texts) => boolean;
  /** A length of the image: typed in another unit, the form can switch all of them to it. */
  readonly isImageLength?: boolean;
}
export type FieldSpec = Common &
  (
    | { readonly kind: 'text' | 'date' | 'aspect' }
    | { readonly kind: 'number'; readonly expect: (texts: Texts) => Expectation }
    | { readonly kind: 'choice'; readonly choices: readonly (readonly [value: string, words: string])[] }
  );
