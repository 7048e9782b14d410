import type { RawCell } from '../../photometry/reading';
import { BATCH_READINGS, type BatchReadings } from '../../procurement/batch/columns';
import { isoDay } from '../days';
import type { CellName } from '../names/all';
import type { NamedCells } from '../run/input';
import { typedSetup } from '../setup/read';
import type { BatchAmbient, BatchSetup, BatchUnit } from './setup';

/**
 * The set-up that a batch sheet was built from, off its named cells (`SETUP_NAMES`, and `Serials` with what stands
 * beside them for the units). What is read follows from the names there are; the rest from the input cells as they
 * stand, with the usual values where one is empty.
 */
export function batchSetupOf(cells: NamedCells): BatchSetup {
  const one = (name: CellName): RawCell => cells[name]?.values[0]?.[0];
  const text = (name: CellName) => words(one(name));
  const known = <K extends string>(names: Readonly<Record<K, CellName>>) =>
    Object.fromEntries(
      Object.entries<CellName>(names).flatMap(([key, name]) => {
        const value = one(name);
        return typeof value === 'number' ? [[key, value]] : [];
      }),
    ) as Partial<Record<K, number>>;
  const units = unitsOf(cells);
  const { projector, mode, measuredBy, meter, image, gain, rated, standard, uncertainty } = typedSetup(
    one,
    cells.SideTop !== undefined,
  );
  return {
    title: text('Batch'),
    projector,
    mode,
    measuredBy,
    meter: { ...meter, range: firstPositive(cells.RangeFactors?.values.flat()) ?? meter.range },
    image,
    gain,
    rated,
    standard,
    readings: readingsOf(cells),
    ambient: ambientOf(cells),
    uncertainty,
    stated: known({ white: 'WhiteStatedU', colour: 'ColourStatedU' }),
    reference: {
      unit: text('ReferenceUnit'),
      ...known({
        white: 'WhiteReference',
        colour: 'ColourReference',
        whiteOutput: 'WhiteReferenceOutput',
        colourOutput: 'ColourReferenceOutput',
      }),
    },
    units,
    lines: Math.max(units.length, cells.Serials?.values.length ?? 1),
  };
}

const words = (value: RawCell) =>
  typeof value === 'string' || typeof value === 'number' ? String(value).trim() : '';

function firstPositive(values: readonly RawCell[] | undefined): number | undefined {
  return values?.find((value): value is number => typeof value === 'number' && value > 0);
}

/** The units listed, up to the last one; a line left empty among them stays one. */
function unitsOf(cells: NamedCells): BatchUnit[] {
  const column = (name: CellName) => cells[name]?.values.map((row) => row[0]) ?? [];
  const [serials, places, hours, dates] = (['Serials', 'UnitPlaces', 'UnitHours', 'UnitDates'] as const).map(
    column,
  );
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
