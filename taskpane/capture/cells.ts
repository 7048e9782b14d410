import type { CellPlace, CellsByName } from '../../src/excel/host';
import { ILLUMINANCE_UNITS } from '../../src/photometry/units';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import type { Task } from './task';

type Values = CellsByName;

/** First cell behind a name; null where the sheet has no such name. */
export function cellAt(values: Values, name: CellName): CellValue {
  return values[name]?.values[0]?.[0] ?? null;
}

export function textAt(values: Values, name: CellName): string {
  const value = cellAt(values, name);
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}

/** `{ unit: place }` if the sheet has the name, else `{}`. */
export function placeIf<K extends string>(
  values: Values,
  key: K,
  name: CellName,
): { readonly [P in K]?: CellPlace } {
  if (!values[name]) return {};
  return { [key]: { name, row: 0, column: 0 } } as { [P in K]: CellPlace };
}

/** Unit, display step and corrections: alike on every sheet that takes readings. */
export function meterOf(values: Values): Pick<Task, 'unit' | 'digit' | 'spectral'> {
  const number = (name: CellName, otherwise: number) => {
    const value = cellAt(values, name);
    return typeof value === 'number' && value > 0 ? value : otherwise;
  };
  const white = number('WhiteSpectral', 1);
  return {
    unit: ILLUMINANCE_UNITS.find((unit) => unit === cellAt(values, 'MeterUnit')) ?? 'lx',
    digit: number('MeterDigit', 1),
    spectral: {
      white,
      red: number('RedSpectral', 1),
      green: number('GreenSpectral', 1),
      blue: number('BlueSpectral', 1),
      // The sheet takes black with white's correction and ambient light with none.
      black: white,
      ambient: 1,
    },
  };
}
