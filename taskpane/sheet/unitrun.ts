import type { SheetReading } from '../../src/excel/host';
import { serialKey } from '../../src/procurement/lot/serials';
import { isOfBatch } from '../../src/sheets/acceptance/links';
import { cellOf, columnOf } from '../run/cell';

/** The run sheet that bears a unit's serial number. */
export function runWithSerial(runs: readonly SheetReading[], serial: string): string | undefined {
  const key = serialKey(serial);
  return runs.find((one) => serialKey(cellOf(one, 'SerialNumber')) === key)?.sheet;
}

/** The lot in which every unit that is on a batch as well has its figures from a batch; undefined where there is none. */
export function lotLinkedTo(batch: string, sheets: readonly SheetReading[]): string | undefined {
  const serialsOf = (one: SheetReading) => columnOf(one, 'Serials').map((cell) => serialKey(cell));
  const own = new Set(sheets.filter(({ sheet }) => sheet === batch).flatMap(serialsOf));
  return sheets.find((lot) => {
    if (lot.kind !== 'acceptance') return false;
    const sources = columnOf(lot, 'UnitSource');
    const shared = serialsOf(lot).flatMap((serial, line) =>
      serial && own.has(serial) ? [sources[line]] : [],
    );
    return shared.length > 0 && shared.every((source) => isOfBatch(source ?? null));
  })?.sheet;
}
