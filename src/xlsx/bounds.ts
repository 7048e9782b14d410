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
const CELLS = 500_000;
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
  let cells = 0;
  for (const { name, xml = '' } of sheets) {
    const sheet = `The sheet "${name}"`;
    for (const [, column = '', row = ''] of xml.matchAll(
      /<(?:\w+:)?c\s[^<>]*?\br\s*=\s*["']?([A-Za-z]*)([0-9]*)/g,
    )) {
      cells++;
      if (Number(row) > ROWS) throw beyond(sheet, `cells below row ${ROWS}`);
      if (columnIndex(column.toUpperCase()) > columnIndex(LAST_COLUMN)) {
        throw beyond(sheet, `cells beyond column ${LAST_COLUMN}`);
      }
    }
    const columns = [...xml.matchAll(/<(?:\w+:)?col[\s/>]/g)].length;
    if (columns > COLUMN_ELEMENTS) throw beyond(sheet, `more than ${COLUMN_ELEMENTS} column widths`);
  }
  if (cells > CELLS) throw beyond('The workbook', `${cells} cells, more than ${CELLS}`);
}

function beyond(what: string, has: string): XlsxError {
  return new XlsxError('big', `${what} has ${has}.`, 'Save the sheets you need in a file of their own.');
}
