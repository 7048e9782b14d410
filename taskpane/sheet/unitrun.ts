import type { SheetReading } from '../../src/excel/host';
import { keyOf } from '../batch/serialkey';
import { cellOf } from '../run/cell';

/** The run sheet that bears a unit's serial number. */
export function runWithSerial(runs: readonly SheetReading[], serial: string): string | undefined {
  const key = keyOf(serial);
  return runs.find((one) => keyOf(String(cellOf(one, 'SerialNumber') ?? '')) === key)?.sheet;
}
