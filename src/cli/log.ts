import type { Book } from '../sheets/book';
import { isLog, type LogLine, withLines } from '../sheets/log';

/** The book with lines added to its log; a workbook without a log gets none. */
export function logged(book: Book, lines: readonly LogLine[]): Book {
  const at = book.sheets.findIndex(isLog);
  if (at < 0) return book;
  return { ...book, sheets: book.sheets.map((sheet, i) => (i === at ? withLines(sheet, lines) : sheet)) };
}
