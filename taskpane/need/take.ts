import type { SheetReading } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import { retyped } from '../parse/quantity';
import { columnOf } from '../run/cell';
import type { RoomField, RoomTexts } from './fields';

/** Columns of the sheet behind the number fields; an image stands there by width and height. */
const COLUMNS: readonly (readonly [id: RoomField, name: CellName])[] = [
  ['width', 'RoomWidth'],
  ['height', 'RoomHeight'],
  ['gain', 'RoomGain'],
  ['ambient', 'RoomAmbient'],
  ['contrast', 'RoomContrast'],
  ['ownContrast', 'RoomOwnContrast'],
  ['luminance', 'RoomLuminance'],
  ['ageing', 'RoomAgeing'],
  ['mode', 'RoomMode'],
  ['colourPart', 'RoomColourPart'],
];
/** Parts of 1 on the sheet are per cent in the form. */
const PARTS: ReadonlySet<RoomField> = new Set<RoomField>(['ageing', 'mode', 'colourPart']);

/**
 * The rooms of a need sheet as the form has them, at most so many, and how many more there are. What is no
 * number on the sheet comes as it stands there, and the form says what is wrong with it.
 */
export function roomsOnSheet(
  reading: SheetReading,
  most: number,
): { readonly rooms: readonly Partial<RoomTexts>[]; readonly left: number } {
  const [names, tasks] = [columnOf(reading, 'Rooms'), columnOf(reading, 'RoomTask')];
  const columns = COLUMNS.map(([id, name]) => [id, columnOf(reading, name)] as const);
  const found = names.flatMap((name, i): Partial<RoomTexts>[] => {
    if (typed(name) === '') return [];
    const cells = columns.map(([id, column]) => [id, typed(column[i], PARTS.has(id) ? 100 : 1)]);
    const task = typed(tasks[i]);
    return [{ room: typed(name), ...(task ? { task } : {}), ...Object.fromEntries(cells) }];
  });
  return { rooms: found.slice(0, most), left: Math.max(0, found.length - most) };
}

function typed(value: CellValue | undefined, times = 1): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return retyped(value * times);
  return typeof value === 'object' ? value.error : String(value);
}
