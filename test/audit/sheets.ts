import { calculate } from '../../src/audit/formula/calculate';
import type { Book, BookSheet } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { filled, randomRun } from '../sheets/randomrun';

/** A book of run sheets with invented readings, calculated. The set-ups differ from seed to seed. */
export function measured(...seeds: number[]): Book {
  const book = bookOf(seeds.map((seed) => filled(randomRun(seed))));
  return { ...book, sheets: book.sheets.map(calculate) };
}

/** The book with one sheet changed. */
export function withSheet(book: Book, at: number, change: (sheet: BookSheet) => BookSheet): Book {
  return { ...book, sheets: book.sheets.map((sheet, i) => (i === at ? change(sheet) : sheet)) };
}
