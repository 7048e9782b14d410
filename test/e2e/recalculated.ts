import { calculateBook } from '../../src/audit/formula/calculate';
import type { Book } from '../../src/sheets/book';
import { readXlsx } from '../../src/xlsx';
import { isLong } from '../tools/amount';
import { recalculate } from '../tools/libreoffice';

/**
 * A file with every formula calculated anew: by LibreOffice in the long run, else by the calculation that
 * audit/calculate holds against LibreOffice cell by cell. Files of the workbench go to LibreOffice every time in
 * workbench/saved.
 */
export async function recalculated(file: Uint8Array): Promise<Book> {
  if (!isLong) return calculateBook(await readXlsx(file));
  return (await recalculate([file]))[0]!;
}
