import { beforeAll, describe, expect, it } from 'vitest';
import { type CsvCell, csvText } from '../../src/csv/write';
import type { Book } from '../../src/sheets/book';
import { readForeign } from '../tools/foreign';
import { convert } from '../tools/libreoffice';
import { HOSTILE } from './hostile';

/** `--infilter` of LibreOffice: separators, quotation mark, UTF-8, from line 1, …, formulas evaluated. */
const filter = (separators: string) => `${separators},34,76,1,,0,false,true,false,false,false,0,true`;

describe('opened in LibreOffice', () => {
  const rows: readonly (readonly CsvCell[])[] = [
    ['name', 'value', 'text'],
    ...HOSTILE.map((text) => [text, -5, 'after'] as const),
    ...HOSTILE.map((text) => ['name', text, -5] as const),
  ];
  const ours = [csvText(rows), csvText(rows, ';')];
  /** Written without heed: what the test would see if nothing were guarded. */
  const naive = '=1+1,-5\r\nx;=1+1\r\n';
  /** By how the cells are parted: at commas, semicolons, tabs. */
  let opened: Book[][];

  beforeAll(async () => {
    opened = [];
    // Semicolons as in a country where a comma stands before decimals.
    for (const [separators, locale] of [
      ['44', 'en-US'],
      ['59', 'de-DE'],
      ['9', 'en-US'],
    ] as const) {
      const files = [...ours, naive].map((text) => new TextEncoder().encode(text));
      const saved = await convert(files, 'xlsx', 120_000, locale, { csv: filter(separators) });
      opened.push(await Promise.all(saved.map(readForeign)));
    }
  }, 400_000);

  const formulas = (book: Book) =>
    Object.entries(book.sheets[0]!.cells).flatMap(([at, { formula }]) =>
      formula ? [`${at} ${formula}`] : [],
    );

  it('no cell is a formula, however the program parts cells', () => {
    expect(opened.map((books) => books.slice(0, 2).map(formulas))).toEqual(
      Array.from({ length: 3 }, () => [[], []]),
    );
  });

  it('unguarded, the same program makes formulas of them', () => {
    // At another mark than its own the first line is one cell; a comma stands before decimals in the second country.
    expect(opened.map((books) => formulas(books[2]!))).toEqual([
      ['A1 =1+1'],
      ['A1 =1+1-5', 'B2 =1+1'],
      ['A1 =1+1,-5'],
    ]);
  });

  it('numbers are numbers where the separator is the one of the file', () => {
    const [commas, semicolons] = [opened[0]![0]!, opened[1]![1]!];
    for (const book of [commas, semicolons]) {
      const values = Object.values(book.sheets[0]!.cells).map(({ value }) => value);
      expect(values.filter((value) => value === -5)).toHaveLength(2 * HOSTILE.length);
    }
  });
});
