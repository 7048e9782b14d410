let made = 0;

/**
 * What a new workbook starts with, in Node and in the browser. Each has an identity of its own: the engine keeps
 * read formulas for the whole process, by workbook and wording, and a kept one reads the cells of the engine that
 * read it. Two workbooks of one identity would calculate with each other's cells.
 */
export function emptyWorkbook() {
  const sheet = '{00000000-0001-0000-0000-000000000000}';
  return {
    id: `workbook-${++made}`,
    name: 'Book1',
    sheetOrder: [sheet],
    sheets: { [sheet]: { id: sheet, name: 'Sheet1', rowCount: 200, columnCount: 30 } },
  };
}
