/** What a new workbook starts with, in Node and in the browser. */
export function emptyWorkbook() {
  const id = '{00000000-0001-0000-0000-000000000000}';
  return {
    id: 'workbook',
    name: 'Book1',
    sheetOrder: [id],
    sheets: { [id]: { id, name: 'Sheet1', rowCount: 200, columnCount: 30 } },
  };
}
