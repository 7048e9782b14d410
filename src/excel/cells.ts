import type { CellValue } from '../sheets/book';
import { cellInput } from './cellinput';
import type { CellPlace, CellWrite } from './host';
import { plain } from './read';

/** Queues the look-up of single cells behind names of a sheet. */
function rangesOf({ names }: Excel.Worksheet, places: readonly CellPlace[]): Excel.Range[] {
  const ranges = places.map(({ name, row, column }) => names.getItem(name).getRange().getCell(row, column));
  for (const range of ranges) range.load('values,valueTypes');
  return ranges;
}

function held(ranges: readonly Excel.Range[]): CellValue[] {
  return ranges.map(({ values, valueTypes }) => plain(values[0]?.[0], valueTypes[0]?.[0]));
}

export async function readCells(sheet: Excel.Worksheet, places: readonly CellPlace[]): Promise<CellValue[]> {
  const ranges = rangesOf(sheet, places);
  await sheet.context.sync();
  return held(ranges);
}

/**
 * One round trip. Actions run in the order they were queued: the look-ups fail, if one does, before anything is
 * written, and the values are fetched before they are replaced.
 */
export async function writeCells(sheet: Excel.Worksheet, cells: readonly CellWrite[]): Promise<CellValue[]> {
  const ranges = rangesOf(sheet, cells);
  cells.forEach(({ value }, i) => {
    // To the host null means "leave it"; an empty text empties the cell.
    ranges[i]!.values = [[cellInput(value) ?? '']];
  });
  await sheet.context.sync();
  return held(ranges);
}
