import { cellsOf, rectOf } from '../../sheets/address';
import type { CellValue } from '../../sheets/book';
import { gridAt, isOwnSheet, type SheetView, valueAt } from '../view';
import { isSmall } from './areas';
import type { Labels } from './labels';
import { type Leaves, valueText } from './write';

/** A sheet that formulas are told from, with the sheets it is linked to. */
export interface Reader {
  readonly view: SheetView;
  readonly labels: Labels;
  /** Significant digits of the numbers put into formulas. */
  readonly digits: number;
  /** Another sheet, if it is at hand. */
  on(sheet: string): Reader | undefined;
}

/** The sheet that a reference means, and what to say of it. */
function where(from: Reader, sheet: string | undefined): { there: Reader | undefined; of: string } {
  return isOwnSheet(from.view, sheet)
    ? { there: from, of: '' }
    : { there: from.on(sheet!), of: ` of \u201c${sheet}\u201d` };
}

/** @param isOfMany whether the same words are to hold for many cells: a cell goes by the area it is in */
export function inWords(from: Reader, isOfMany = false): Leaves {
  return {
    range: (address, sheet) => {
      const { there, of } = where(from, sheet);
      if (!there) return `${address}${of}`;
      return `${isOfMany ? there.labels.area(address) : there.labels.of(address)}${of}`;
    },
    name: (name, sheet) => `${from.labels.word(name)}${where(from, sheet).of}`,
    pick: (grid, row, column) => {
      const at = cellOf(from.view, grid, row, column);
      return at === undefined ? undefined : from.labels.of(at);
    },
  };
}

export function inNumbers(from: Reader): Leaves {
  const text = (value: CellValue) => valueText(value, from.digits);
  const area = (address: string, there: Reader | undefined) => {
    const values = there && isSmall(address) ? gridAt(there.view, address)?.flat() : undefined;
    return values ? values.map(text).join('; ') : address;
  };
  return {
    range: (address, sheet) => area(address, where(from, sheet).there),
    name: (name, sheet) => {
      const { there } = where(from, sheet);
      const place = there?.view.places.get(name.toLowerCase());
      return place ? area(place.address, there) : name;
    },
    pick: (grid, row, column) => {
      const at = cellOf(from.view, grid, row, column);
      return at === undefined ? undefined : text(valueAt(from.view, at));
    },
  };
}

/** The cell of a named grid that INDEX picks, row and column counted from 1. */
function cellOf(view: SheetView, grid: string, row: number, column: number): string | undefined {
  const place = view.places.get(grid.toLowerCase());
  if (!place || !isSmall(place.address)) return undefined;
  const { rows, columns } = rectOf(place.address);
  return row >= 1 && row <= rows && column >= 1 && column <= columns
    ? cellsOf(place.address)[(row - 1) * columns + column - 1]
    : undefined;
}
