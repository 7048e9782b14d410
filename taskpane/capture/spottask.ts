import type { SheetReading } from '../../src/excel/host';
import { CENTRE, NINE_POINTS } from '../../src/photometry/points';
import { PRIMARIES } from '../../src/photometry/tiles';
import { stemOf } from '../../src/sheets/names/stem';
import { NOTES } from '../../src/sheets/run/notes';
import { spotAnswers } from './answers';
import { meterOf, placeIf, textAt } from './cells';
import { type Group, type Step, stepKey, type Task } from './task';

const LIGHTS = ['white', ...PRIMARIES] as const;
const { u, v, number } = NINE_POINTS[CENTRE]!;

/** A spot check → its readings, unit after unit in the order drawn. */
export function spotTask(reading: SheetReading): Task {
  const { values, sheet, id } = reading;
  const units = values.SpotUnits?.values.map((row) => String(row[0] ?? '')) ?? [];
  const turns = values.SpotTurns?.values.map((row) => Number(row[0])) ?? [];
  const order = units.map((_, i) => i).sort((a, b) => turns[a]! - turns[b]!);
  return {
    kind: 'spot',
    sheet,
    id,
    about: textAt(values, 'Place') || sheet,
    ...meterOf(values),
    groups: [
      ...(values.AmbientReadings ? [ambient(values)] : []),
      ...order.map((line, i) => unitGroup(values, units[line]!, line, i)),
    ],
    cells: { ...placeIf(values, 'unit', 'MeterUnit'), ...placeIf(values, 'notes', NOTES) },
    mode: '',
    answers: spotAnswers(reading),
  };
}

function stepAt(
  values: SheetReading['values'],
  group: string,
  label: string,
  stem: 'White' | 'Red' | 'Green' | 'Blue' | 'Ambient',
  row: number,
): Pick<
  Step,
  'key' | 'group' | 'label' | 'at' | 'rangeAt' | 'value' | 'factor' | 'u' | 'v' | 'number' | 'word' | 'point'
> &
  Pick<Step, 'isRangeShared' | 'isAnywhere'> {
  const at = { name: `${stem}Readings` as const, row, column: 0 };
  const rangeAt = { name: `${stem}Range` as const, row, column: 0 };
  const factor = values[rangeAt.name]?.values[row]?.[0];
  return {
    key: stepKey(at),
    group,
    label,
    point: 'centre',
    number,
    word: 'point',
    at,
    rangeAt,
    isRangeShared: false,
    isAnywhere: false,
    u,
    v,
    value: values[at.name]?.values[row]?.[0] ?? null,
    factor: typeof factor === 'number' && factor > 0 ? factor : 1,
  };
}

function ambient(values: SheetReading['values']): Group {
  const light = 'ambient' as const;
  return {
    id: 'ambient',
    label: light,
    rows: 1,
    columns: 1,
    intro:
      'Block the projector’s light, by its shutter or a lid before the lens: a black picture still glows.',
    hasOneRange: false,
    isLast: false,
    steps: [
      {
        ...stepAt(values, 'ambient', light, 'Ambient', 0),
        field: light,
        light,
        peers: light,
        zero: 'reading',
      },
    ],
  };
}

function unitGroup(values: SheetReading['values'], unit: string, row: number, turn: number): Group {
  const id = `unit ${row + 1}`;
  const name = unit.trim() || id;
  const place =
    turn === 0
      ? 'Mark where it stands: every unit comes to the same place.'
      : 'Same place, same size of image.';
  return {
    id,
    label: name,
    rows: 1,
    columns: LIGHTS.length,
    intro: `${name} now. ${place} Let it warm up before the first reading.`,
    hasOneRange: false,
    isLast: false,
    steps: LIGHTS.map((light) => ({
      ...stepAt(values, id, `${name}, ${light}`, stemOf(light), row),
      field: light,
      light,
      peers: light,
      zero: 'missing' as const,
    })),
  };
}
