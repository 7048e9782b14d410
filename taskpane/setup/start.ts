import { defaultRunSetup } from '../../src/sheets/runsetup';
import type { Texts } from './field';

/** What the form holds at first. The image size stays empty: a default would be a silently wrong area. */
export function startTexts(today: string): Texts {
  const {
    meter,
    image,
    gain,
    rated,
    standard,
    colour,
    ambient,
    black,
    checkerboard,
    corners,
    repeats,
    uncertainty,
  } = defaultRunSetup();
  const rectangle = image.shape === 'rectangle' ? image : undefined;
  return {
    projector: '',
    serial: '',
    mode: '',
    place: '',
    measuredBy: '',
    date: today,
    meterName: meter.name,
    meterUnit: meter.unit,
    range: String(meter.range),
    digit: String(meter.digit),
    calibratedOn: meter.calibratedOn,
    calibration: String(meter.calibration),
    whiteCorrection: String(meter.corrections.white),
    redCorrection: String(meter.corrections.red),
    greenCorrection: String(meter.corrections.green),
    blueCorrection: String(meter.corrections.blue),
    known: rectangle?.known ?? 'width',
    lengthUnit: image.unit,
    length: '',
    aspect: rectangle ? `${rectangle.across}:${rectangle.down}` : '16:10',
    width: '',
    height: '',
    top: '',
    right: '',
    bottom: '',
    left: '',
    falling: '',
    rising: '',
    gain: String(gain),
    ratedWhite: '',
    ratedColour: '',
    minimum: String(rated.minimumFraction * 100),
    standard,
    colour,
    ambient,
    black: black ? 'yes' : 'no',
    checkerboard: checkerboard ? 'yes' : 'no',
    corners: corners ? 'yes' : 'no',
    repeats: String(repeats),
    meterClass: uncertainty.meterClass,
    ofReading: '',
    digits: '',
    whiteMismatch: '',
    redMismatch: '',
    greenMismatch: '',
    blueMismatch: '',
    blackMismatch: '',
    widthHalf: '',
    heightHalf: '',
    squareHalf: '',
    ambientHalf: '',
    gainHalf: '',
    otherHalf: '',
    level: String(Number((uncertainty.level * 100).toPrecision(6))),
    rule: uncertainty.rule,
  };
}

/** The day in the person's own time zone, as an ISO date. */
export function isoDay(date: Date): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
