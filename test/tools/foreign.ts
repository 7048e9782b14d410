import ExcelJS from 'exceljs';
import {
  type Book,
  type BookCell,
  type BookSheet,
  type CellValue,
  EMPTY_SHEET,
  type ErrorKind,
} from '../../src/sheets/book';

/**
 * Values and formulas of an .xlsx file as ExcelJS sees them: a second opinion on files, by a reader that shares
 * no code with ours. Everything else of a Book stays empty; formulas are given as they are stored.
 */
export async function readForeign(bytes: Uint8Array): Promise<Book> {
  const workbook = new ExcelJS.Workbook();
  await workbook.xlsx.load(Buffer.from(bytes) as unknown as ExcelJS.Buffer);
  return { sheets: workbook.worksheets.map(readSheet), names: [] };
}

function readSheet(sheet: ExcelJS.Worksheet): BookSheet {
  const cells: Record<string, BookCell> = {};
  sheet.eachRow((row) => {
    row.eachCell((cell) => {
      // A merged cell repeats the first one's value.
      if (cell.isMerged && cell.master !== cell) return;
      const formula = cell.type === ExcelJS.ValueType.Formula ? cell.formula : undefined;
      const value = formula === undefined ? cell.value : (cell.result ?? '');
      cells[cell.address] = {
        value: plain(value),
        ...(formula === undefined ? {} : { formula: `=${formula}` }),
      };
    });
  });
  return { ...EMPTY_SHEET, name: sheet.name, visibility: sheet.state, cells };
}

const DAY = 86_400_000;
/** 1 January 1970 as a day of the spreadsheet calendar. */
const DAY_1970 = 25569;

function plain(value: unknown): CellValue {
  if (value === null || value === undefined) return null;
  if (value instanceof Date) return value.getTime() / DAY + DAY_1970;
  if (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') return value;
  if (typeof value === 'object' && 'error' in value) return { error: value.error as ErrorKind };
  if (typeof value === 'object' && 'richText' in value) {
    return (value.richText as { text: string }[]).map(({ text }) => text).join('');
  }
  throw new Error(`a cell value of an unknown shape: ${JSON.stringify(value)}`);
}
