import { columnIndex } from '../sheets/address';
import { damaged, XlsxError } from './error';
import type { SheetPart } from './parts';

/*
 * The library lays every sheet out as a full rectangle, so that one cell in the last corner costs gigabytes,
 * and one <col> element can stand for 16384 columns. It is asked to read this area only, and a file that goes
 * beyond is refused before, so that nothing is lost silently.
 */
const ROWS = 10_000;
const LAST_COLUMN = 'IV';
/** 200 run sheets of all layouts have 516 000 cells and take about 0.9 GB while they are read. */
const CELLS = 750_000;
/** Cells of the rectangles that all sheets are laid out as, empty ones included; 200 run sheets have 616 000. */
const AREA = 10_000_000;
/** Cells that tables of values may say they fill, one beside the other: twice as many as there may be cells. */
export const FILLED = 2 * CELLS;
/** As many as a file may have parts. */
const LISTED = 2000;
const COLUMN_ELEMENTS = 2048;

/** The area that is read of a sheet. */
export const READ_AREA = `A1:${LAST_COLUMN}${ROWS}`;

/** Refuses a workbook with more sheets, cells, rows or columns than are read. @throws XlsxError `big` */
export function checkBounds(sheets: readonly SheetPart[]): void {
  if (sheets.length > LISTED) throw beyond('The workbook', `${sheets.length} sheets, more than ${LISTED}`);
  // How many sheets there may be follows from the number and size of the file's parts, as long as each is its own.
  const seen = new Set<string>();
  for (const { path } of sheets) {
    if (path !== undefined && seen.has(path)) throw damaged(`its part ${path} is listed as two sheets`);
    if (path !== undefined) seen.add(path);
  }
  let [cells, area] = [0, 0];
  for (const { name, xml = '' } of sheets) {
    const sheet = `The sheet "${name}"`;
    const extent = extentOf(xml);
    cells += extent.cells;
    if (cells > CELLS) throw beyond('The workbook', `more than ${CELLS} cells`);
    area += extent.rows * extent.columns;
    if (extent.rows > ROWS) throw beyond(sheet, `cells below row ${ROWS}`);
    if (extent.columns > columnIndex(LAST_COLUMN) + 1)
      throw beyond(sheet, `cells beyond column ${LAST_COLUMN}`);
    const columns = [...xml.matchAll(/<(?:\w+:)?col[\s/>]/g)].length;
    if (columns > COLUMN_ELEMENTS) throw beyond(sheet, `more than ${COLUMN_ELEMENTS} column widths`);
  }
  if (area > AREA) {
    throw beyond('The workbook', `cells so far apart that ${area} would be laid out, more than ${AREA}`);
  }
}

/** How many cells a sheet has, and the last row and column with one; stops counting at more than are read. */
function extentOf(xml: string): { cells: number; rows: number; columns: number } {
  const extent = { cells: 0, rows: 0, columns: 0 };
  let [row, column] = [0, 0];
  for (const [, element, attributes = ''] of xml.matchAll(/<(?:\w+:)?(row|c)(?=[\s/>])([^<]*)/g)) {
    if (element === 'row') {
      // A row or a cell that does not say where it is follows the one before.
      row++;
      for (const [, r] of attributes.matchAll(ROW)) row = Math.max(row, Number(r));
      column = 0;
      continue;
    }
    column++;
    for (const [, letters = '', r = ''] of attributes.matchAll(PLACE)) {
      column = Math.max(column, columnIndex(letters.toUpperCase()) + 1);
      row = Math.max(row, Number(r));
    }
    extent.cells++;
    if (extent.cells > CELLS) break;
    extent.rows = Math.max(extent.rows, row);
    extent.columns = Math.max(extent.columns, column);
  }
  return extent;
}

/** Where an element says it is. One that says so twice is taken at its farthest. */
const ROW = /\sr\s*=\s*["']?([0-9]+)/g;
const PLACE = /\sr\s*=\s*["']?([A-Za-z]*)([0-9]*)/g;

function beyond(what: string, has: string): XlsxError {
  return new XlsxError('big', `${what} has ${has}.`, 'Save the sheets you need in a file of their own.');
}
