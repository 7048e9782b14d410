import type { SheetReading } from '../../src/excel/host';
import { isoDay } from '../../src/sheets/days';
import type { CellName, ResultName } from '../../src/sheets/names/all';
import { cellOf, columnOf, resultOf } from '../run/cell';

/** One part of a meter check as the pane shows it. */
export interface Part {
  readonly label: string;
  /** `0.12 %`, or how far it is. */
  readonly text: string;
}

/** What a meter check has for a run, as parts of a reading; undefined where it has not been read. */
export interface Found {
  readonly sheet: string;
  readonly meter: string;
  /** ISO date; empty if not stated. */
  readonly date: string;
  readonly repeatability: number | undefined;
  /** How many readings the repeatability rests on. */
  readonly readings: number;
  readonly placing: number | undefined;
  readonly linearity: number | undefined;
}

export const asPart = (value: number) => `${Number((100 * value).toPrecision(2))} %`;

export function foundOn(reading: SheetReading): Found {
  return {
    sheet: reading.sheet,
    meter: String(cellOf(reading, 'Meter') ?? ''),
    date: isoDay(cellOf(reading, 'MeasuredOn') ?? null),
    repeatability: resultOf(reading, 'Repeatability'),
    readings: columnOf(reading, 'RepeatReadings').length,
    placing: resultOf(reading, 'Placing'),
    linearity: resultOf(reading, 'Linearity'),
  };
}

const PARTS: readonly {
  readonly label: string;
  readonly result: ResultName;
  readonly read: readonly CellName[];
}[] = [
  { label: 'Repeatability of one reading', result: 'Repeatability', read: ['RepeatReadings'] },
  { label: 'Placing and tilt ±', result: 'Placing', read: ['PlacedReadings'] },
  { label: 'Step between ranges ±', result: 'RangesLimit', read: ['LowReadings', 'HighReadings'] },
  {
    label: 'Levels, by distance ±',
    result: 'DistancesLimit',
    read: ['NearReadings', 'NearHidden', 'FarReadings', 'FarHidden'],
  },
  {
    label: 'Levels, by parts and whole ±',
    result: 'SumsLimit',
    read: ['DarkReadings', 'FirstReadings', 'SecondReadings', 'ThirdReadings', 'AllReadings'],
  },
];

/** Every part with what it came to, or how many of its readings are there. */
export function partsOf(reading: SheetReading): Part[] {
  const parts = PARTS.map(({ label, result, read }): Part => {
    const value = resultOf(reading, result);
    if (value !== undefined) return { label, text: asPart(value) };
    const cells = read.flatMap((name) => columnOf(reading, name));
    const there = cells.filter((cell) => typeof cell === 'number').length;
    if (there === cells.length && result === 'DistancesLimit')
      return { label, text: 'the distances and sizes are missing' };
    return { label, text: there === 0 ? 'not read' : `${there} of ${cells.length} readings` };
  });
  const linearity = resultOf(reading, 'Linearity');
  return [
    ...parts,
    {
      label: 'Linearity and range step ±',
      text: linearity === undefined ? 'needs two ranges, and distances or parts' : asPart(linearity),
    },
  ];
}
