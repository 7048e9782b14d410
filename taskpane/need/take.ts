import type { SheetReading } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import { shown } from '../parse/quantity';
import { columnOf } from '../run/cell';
import { ROOM_NUMBERS, type RoomNumber, type RoomTexts, startRoom } from './fields';
import type { Marks } from './room';

/** Columns of the sheet behind the number fields; an image stands there by width and height. */
const COLUMNS: Readonly<Record<Exclude<RoomNumber, 'diagonal'>, CellName>> = {
  width: 'RoomWidth',
  height: 'RoomHeight',
  gain: 'RoomGain',
  ambient: 'RoomAmbient',
  contrast: 'RoomContrast',
  ownContrast: 'RoomOwnContrast',
  luminance: 'RoomLuminance',
  ageing: 'RoomAgeing',
  mode: 'RoomMode',
  colourPart: 'RoomColourPart',
};

export interface TakenRoom {
  readonly texts: RoomTexts;
  readonly marks: Marks;
}

/** Parts of 1 on the sheet are per cent in the form. */
const isPart = (id: RoomNumber) => ROOM_NUMBERS[id].expect.unit === '%';

/**
 * The rooms of a need sheet as the form has them, at most so many, and how many more there are. What is no
 * number on the sheet comes as it stands there, and the form says what is wrong with it.
 */
export function roomsOnSheet(
  reading: SheetReading,
  most: number,
): { readonly rooms: readonly TakenRoom[]; readonly left: number } {
  const [names, tasks] = [columnOf(reading, 'Rooms'), columnOf(reading, 'RoomTask')];
  const columns = Object.entries(COLUMNS).map(
    ([id, name]) => [id as RoomNumber, columnOf(reading, name)] as const,
  );
  const found = names.flatMap((name, i): TakenRoom[] => {
    const cells = columns.map(([id, column]) => [id, column[i] ?? null] as const);
    if (typed(name) === '') return [];
    const start = startRoom();
    return [
      {
        texts: {
          ...start,
          room: typed(name),
          known: 'width and height',
          task: typed(tasks[i] ?? null) || start.task,
          ...Object.fromEntries(cells.map(([id, value]) => [id, typed(value, isPart(id) ? 100 : 1)])),
        },
        // 1.234 m is read from a cell, so nobody needs to be asked what the point means.
        marks: Object.fromEntries(
          cells.flatMap(([id, value]) => (typeof value === 'number' ? [[id, 'point']] : [])),
        ),
      },
    ];
  });
  return { rooms: found.slice(0, most), left: Math.max(0, found.length - most) };
}

function typed(value: CellValue, times = 1): string {
  if (value === null) return '';
  if (typeof value === 'number') return shown(value * times);
  return typeof value === 'object' ? value.error : String(value);
}
