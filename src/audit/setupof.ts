import { DECISION_RULES } from '../metrology/rules';
import { rectOf } from '../sheets/address';
import { isoDay } from '../sheets/days';
import { imageOf } from '../sheets/imageof';
import type { CellName } from '../sheets/names/all';
import {
  type ColourFields,
  defaultRunSetup,
  MAX_REPEATS,
  METER_CLASSES,
  type RunSetup,
  type UncertaintySetup,
} from '../sheets/runsetup';
import { gridOf, type SheetView } from './view';

/**
 * The set-up a run sheet was built from, read off the sheet. What its layout depends on (colour fields,
 * ambient, black, corners, checkerboard, shape of the image) follows from the names it has, each from several,
 * so that one lost name does not make another sheet of it; the rest from its input cells as they stand.
 */
export function setupOf(view: SheetView): RunSetup {
  const has = (...names: CellName[]) => names.some((name) => view.places.has(name.toLowerCase()));
  const base = defaultRunSetup();
  const text = (name: CellName) => {
    const value = one(view, name);
    return typeof value === 'string' ? value : typeof value === 'number' ? String(value) : '';
  };
  const number = (name: CellName, otherwise: number) => {
    const value = one(view, name);
    return typeof value === 'number' && value > 0 ? value : otherwise;
  };
  const date = (name: CellName) => isoDay(one(view, name));
  const rated = (name: CellName) => number(name, 0) || undefined;
  return {
    projector: text('Projector'),
    serial: text('SerialNumber'),
    mode: text('PictureMode'),
    place: text('Place'),
    measuredBy: text('MeasuredBy'),
    date: date('MeasuredOn'),
    meter: {
      name: text('Meter'),
      unit: text('MeterUnit') === 'fc' ? 'fc' : 'lx',
      range: number('WhiteRange', 1),
      digit: number('MeterDigit', base.meter.digit),
      calibratedOn: date('CalibratedOn'),
      calibration: number('CalibrationFactor', 1),
      corrections: {
        white: number('WhiteSpectral', 1),
        red: number('RedSpectral', 1),
        green: number('GreenSpectral', 1),
        blue: number('BlueSpectral', 1),
      },
    },
    image: imageOf(
      (name) => one(view, name),
      number,
      has('SideTop', 'SideBottom', 'SideLeft', 'DiagonalFalling'),
    ),
    gain: number('ScreenGain', 1),
    rated: {
      white: rated('RatedWhite'),
      colour: rated('RatedColour'),
      minimumFraction: number('MinimumFraction', base.rated.minimumFraction),
    },
    standard: text('SignalStandard') || base.standard,
    colour: coloursOf(has),
    ambient: ambientOf(view, has),
    black: has('BlackReadings', 'BlackRange', 'BlackNet', 'BlackRemarks'),
    checkerboard: has('BoardReadings', 'BoardRange', 'BoardTopLeft', 'BoardWhite'),
    corners: has('CornerReadings', 'CornerRange', 'CornerNet'),
    repeats: repeatsOf(view),
    uncertainty: uncertaintyOf(view),
  };
}

function one(view: SheetView, name: CellName) {
  return gridOf(view, name)[0]?.[0] ?? null;
}

/** The highest repeat any field has; one lost name takes nothing away where others tell it too. */
function repeatsOf({ places }: SheetView): number {
  const found = [...places.keys()].flatMap((name) => /^[a-z]+repeat([2-9])$/.exec(name)?.[1] ?? []);
  return Math.min(MAX_REPEATS, Math.max(1, ...found.map(Number)));
}

function uncertaintyOf(view: SheetView): UncertaintySetup {
  const base = defaultRunSetup().uncertainty;
  const known = (name: CellName) => {
    const value = one(view, name);
    return typeof value === 'number' ? value : undefined;
  };
  const spectral = {
    white: known('WhiteMismatch'),
    red: known('RedMismatch'),
    green: known('GreenMismatch'),
    blue: known('BlueMismatch'),
    black: known('BlackMismatch'),
  };
  return {
    meterClass: METER_CLASSES.find((each) => each === one(view, 'MeterClass')) ?? base.meterClass,
    ofReading: known('MeterOfReading'),
    digits: known('MeterDigits'),
    spectral: Object.values(spectral).some((value) => value !== undefined) ? spectral : undefined,
    width: known('WidthHalf'),
    height: known('HeightHalf'),
    square: known('SquareHalf'),
    ambient: known('AmbientHalf'),
    gain: known('GainHalf'),
    other: known('OtherHalf'),
    level: known('Level') ?? base.level,
    rule: DECISION_RULES.find((each) => each === one(view, 'DecisionRule')) ?? base.rule,
  };
}

type Has = (...names: CellName[]) => boolean;

function coloursOf(has: Has): ColourFields {
  if (has('PatternA', 'PatternB', 'PatternC', 'PatternARange', 'PatternBRange')) return 'tiled patterns';
  return has('RedReadings', 'RedRange', 'GreenReadings', 'BlueReadings', 'RedNet') ? 'full fields' : 'none';
}

function ambientOf({ places }: SheetView, has: Has): RunSetup['ambient'] {
  if (!has('AmbientReadings', 'AmbientRange')) return 'none';
  const sizes = ['ambientreadings', 'ambientrange', 'ambientlux'].flatMap((name) => {
    const address = places.get(name)?.address;
    return address === undefined ? [] : [rectOf(address).rows];
  });
  return sizes.filter((rows) => rows > 1).length * 2 > sizes.length ? 'nine points' : 'once';
}
