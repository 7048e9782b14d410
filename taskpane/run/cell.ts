import type { SheetReading } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';
import type { CellName, ResultName } from '../../src/sheets/names/all';

/** First cell behind a name; undefined where the sheet has no such name. */
export function cellOf({ values }: SheetReading, name: CellName): CellValue | undefined {
  const named = values[name];
  return named && (named.values[0]?.[0] ?? null);
}

/** A result as a number: the custom function's, else the plain formula's beside it. */
export function resultOf(reading: SheetReading, name: ResultName): number | undefined {
  const own = cellOf(reading, name);
  if (typeof own === 'number') return own;
  const plain = cellOf(reading, `${name}Plain`);
  return typeof plain === 'number' ? plain : undefined;
}

/** A result that is a text, with the plain formula's as the fallback while the function shows an error. */
export function textResultOf(reading: SheetReading, name: ResultName): string {
  const own = cellOf(reading, name);
  const cell = typeof own === 'object' && own !== null ? cellOf(reading, `${name}Plain`) : own;
  return typeof cell === 'string' ? cell : '';
}

/** Cells of a column or row, in order. */
export function columnOf({ values }: SheetReading, name: CellName): readonly CellValue[] {
  return values[name]?.values.flat() ?? [];
}

/** Addresses of a sheet's names. */
export function addressesOf({ values }: SheetReading): Record<string, string> {
  return Object.fromEntries(Object.entries(values).map(([name, { address }]) => [name, address]));
}
