import type { SheetReading } from '../../src/excel/host';
import { isOverRange } from '../../src/photometry/overrange';
import { displayNumbers, type GridShape, isBlank, type RawCell } from '../../src/photometry/reading';
import { cellsOf } from '../../src/sheets/address';
import type { CellValue } from '../../src/sheets/book';
import type { RunField } from './fields';

/** Where one reading stands. */
export interface Place {
  /** "top left (point 1)" */
  readonly words: string;
  /** Cell on the sheet. */
  readonly cell: string;
}

/** How far one field is. */
export interface FieldProgress {
  readonly field: RunField;
  readonly done: number;
  readonly of: number;
  readonly missing: readonly Place[];
  readonly over: readonly Place[];
  /** Cells with something that is no reading, each as a whole sentence. */
  readonly wrong: readonly { readonly place: Place; readonly message: string }[];
  /** Cells that hold something, of whatever kind. */
  readonly filled: number;
}

/** Looks through the cells of one field. */
export function progressOf(field: RunField, reading: SheetReading): FieldProgress {
  const named = reading.values[field.name];
  const { shape, zero, label } = field;
  const cells = named ? cellsOf(named.address) : [];
  const values = named?.values.flat() ?? [];
  const missing: Place[] = [];
  const over: Place[] = [];
  const wrong: { place: Place; message: string }[] = [];
  values.forEach((value, i) => {
    const place = { words: `${shape.names[i]} (${shape.word} ${shape.first + i})`, cell: cells[i]! };
    if (isBlank(raw(value)) || (value === 0 && zero === 'missing')) missing.push(place);
    else if (isOverRange(raw(value))) over.push(place);
    else {
      const read = displayNumbers([[raw(value)]], onlyPlace(shape, i), label, zero);
      if (!read.ok) wrong.push({ place, message: read.problems[0]!.message });
    }
  });
  const filled = values.filter((value) => !isBlank(raw(value))).length;
  const done = values.length - missing.length - over.length - wrong.length;
  return { field, done, of: values.length, missing, over, wrong, filled };
}

/** A shape of the one cell, so that messages name its place. */
function onlyPlace(shape: GridShape, index: number): GridShape {
  return { rows: 1, columns: 1, names: [shape.names[index]!], word: shape.word, first: shape.first + index };
}

function raw(value: CellValue): RawCell {
  return value;
}
