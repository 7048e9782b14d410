import { DECISION_RULES } from '../../metrology/words';
import type { RawCell } from '../../photometry/reading';
import { BATCH_READINGS, type BatchReadings } from '../../procurement/batch/columns';
import { isoDay } from '../days';
import { imageOf } from '../imageof';
import type { CellName } from '../names/all';
import type { NamedCells } from '../run/input';
import { METER_CLASSES, type MeterClassChoice, type UncertaintySetup } from '../runsetup';
import { type BatchAmbient, type BatchSetup, type BatchUnit, defaultBatchSetup } from './setup';

/**
 * The set-up that a batch sheet was built from, off its named cells (`SETUP_NAMES`, and `Serials` with what stands
 * beside them for the units). What is read follows from the names there are; the rest from the input cells as they
 * stand, with the usual values where one is empty.
 */
export function batchSetupOf(cells: NamedCells): BatchSetup {
  const base = defaultBatchSetup();
  const one = (name: CellName): RawCell => cells[name]?.values[0]?.[0];
  const text = (name: CellName) => {
    const value = one(name);
    return typeof value === 'string' || typeof value === 'number' ? String(value).trim() : '';
  };
  const known = (name: CellName) => {
    const value = one(name);
    return typeof value === 'number' ? value : undefined;
  };
  const number = (name: CellName, otherwise: number) => {
    const value = known(name);
    return value !== undefined && value > 0 ? value : otherwise;
  };
  const some = <K extends string>(entries: Readonly<Record<K, number | undefined>>) =>
    Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as Partial<
      Record<K, number>
    >;
  const units = unitsOf(cells);
  return {
    title: text('Batch'),
    projector: text('Projector'),
    mode: text('PictureMode'),
    measuredBy: text('MeasuredBy'),
    meter: {
      name: text('Meter'),
      unit: text('MeterUnit') === 'fc' ? 'fc' : 'lx',
      range: firstPositive(cells.RangeFactors?.values.flat()) ?? 1,
      digit: number('MeterDigit', base.meter.digit),
      calibratedOn: isoDay(one('CalibratedOn')),
      calibration: number('CalibrationFactor', 1),
      corrections: {
        white: number('WhiteSpectral', 1),
        red: number('RedSpectral', 1),
        green: number('GreenSpectral', 1),
        blue: number('BlueSpectral', 1),
      },
    },
    image: imageOf(one, number, cells.SideTop !== undefined),
    gain: number('ScreenGain', base.gain),
    rated: {
      ...some({ white: known('RatedWhite'), colour: known('RatedColour') }),
      minimumFraction: number('MinimumFraction', base.rated.minimumFraction),
    },
    standard: text('SignalStandard') || base.standard,
    readings: readingsOf(cells),
    ambient: ambientOf(cells),
    uncertainty: uncertaintyOf(base.uncertainty, one, known),
    stated: some({ white: known('WhiteStatedU'), colour: known('ColourStatedU') }),
    reference: {
      unit: text('ReferenceUnit'),
      ...some({
        white: known('WhiteReference'),
        colour: known('ColourReference'),
        whiteOutput: known('WhiteReferenceOutput'),
        colourOutput: known('ColourReferenceOutput'),
      }),
    },
    units,
    lines: Math.max(units.length, cells.Serials?.values.length ?? 1),
  };
}

function firstPositive(values: readonly RawCell[] | undefined): number | undefined {
  return values?.find((value): value is number => typeof value === 'number' && value > 0);
}

/** The units listed, up to the last one; a line left empty among them stays one. */
function unitsOf(cells: NamedCells): BatchUnit[] {
  const column = (name: CellName) => cells[name]?.values.map((row) => row[0]) ?? [];
  const [serials, places, hours, dates] = (['Serials', 'UnitPlaces', 'UnitHours', 'UnitDates'] as const).map(
    column,
  );
  const words = (value: RawCell) =>
    typeof value === 'string' || typeof value === 'number' ? String(value).trim() : '';
  const units = serials!.map((serial, i): BatchUnit => {
    const [place, time, date] = [words(places![i]), hours![i], isoDay(dates![i])];
    return {
      serial: words(serial),
      ...(place ? { place } : {}),
      ...(typeof time === 'number' ? { hours: time } : {}),
      ...(date ? { date } : {}),
    };
  });
  const isListed = (unit: BatchUnit) => Object.values(unit).some((value) => value !== '');
  while (units.length > 0 && !isListed(units.at(-1)!)) units.pop();
  return units;
}

function readingsOf(cells: NamedCells): BatchReadings {
  const isCentre = cells.ReferenceUnit !== undefined || cells.WhiteReference !== undefined;
  const hasColour = cells.ColourStatedU !== undefined || cells.RedReadings !== undefined;
  return BATCH_READINGS[(isCentre ? 2 : 0) + (hasColour ? 1 : 0)]!;
}

/** Read row by row, the ambient light has as many cells as there are units, and no range factor of its own. */
function ambientOf(cells: NamedCells): BatchAmbient {
  if (!cells.AmbientReadings) return 'none';
  return cells.AmbientRange ? 'once' : 'by row';
}

function uncertaintyOf(
  base: UncertaintySetup,
  one: (name: CellName) => RawCell,
  known: (name: CellName) => number | undefined,
): UncertaintySetup {
  return {
    meterClass: METER_CLASSES.find((each: MeterClassChoice) => each === one('MeterClass')) ?? base.meterClass,
    ofReading: known('MeterOfReading'),
    digits: known('MeterDigits'),
    spectral: {
      white: known('WhiteMismatch'),
      red: known('RedMismatch'),
      green: known('GreenMismatch'),
      blue: known('BlueMismatch'),
    },
    width: known('WidthHalf'),
    height: known('HeightHalf'),
    square: known('SquareHalf'),
    ambient: known('AmbientHalf'),
    other: known('OtherHalf'),
    level: known('Level') ?? base.level,
    rule: DECISION_RULES.find((each) => each === one('DecisionRule')) ?? base.rule,
  };
}
