import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { split } from '../../src/csv/split';
import { type CsvCell, csvText, guarded, unguarded } from '../../src/csv/write';
import type { Book } from '../../src/sheets/book';
import { readForeign } from '../tools/foreign';
import { convert } from '../tools/libreoffice';

/* What begins a formula: OWASP, "CSV Injection" (from memory); the second opinion is LibreOffice below. */

/** Texts of a hostile workbook. None may become a formula, wherever a program parts the cells. */
const HOSTILE = [
  '=1+1',
  '+1+1',
  '-1+1',
  '@SUM(1,2)',
  "-2+3+cmd|' /C calc'!A0",
  '=HYPERLINK("http://example.invalid","x")',
  '\t=1+1',
  '\r=1+1',
  '\n=1+1',
  '  =1+1',
  '\u00a0=1+1',
  '\ufeff=1+1',
  '"=1+1',
  '"\t=1+1"',
  '\uff1d1+1',
  '\uff0b1+1',
  '\uff0d1+1',
  '\uff20SUM(1,2)',
  'x;=1+1',
  'x; =1+1;y',
  'x;"=1+1;"',
  'x";=1+1;"',
  'x\t=1+1',
  'x\n=1+1',
  'x\r\n"=1+1',
  'x,=1+1',
];

describe('texts that would be formulas', () => {
  it.each(HOSTILE)('%j is a text for programs of either separator, and comes back as it was', (text) => {
    for (const separator of [',', ';'] as const) {
      expect(unguarded(guarded(text, separator), separator)).toBe(text);
      const row = csvText([['name', text]], separator);
      const mark = separator === ',' ? 'comma' : 'semicolon';
      // Split at each separator without heed to quotation marks, as a program for another one does.
      const foreign = separator === ',' ? /[;\t\r\n]/ : /[,\t\r\n]/;
      for (const part of row.split(foreign))
        expect(
          part.replace(/^[\s\p{Cf}"']*/u, (skipped) => (skipped.includes("'") ? 'safe' : '')),
        ).not.toMatch(/^[=+\-@＝＋－＠]/);
      expect(split(row, mark)[0]!.cells[1]).toMatch(/^[^=+\-@＝＋－＠\t\r\n]/);
    }
  });

  it('any text comes back', () => {
    const unit = fc.constantFrom(...'a1 ",;\t\n\'=+-@＝\u200b');
    fc.assert(
      fc.property(
        fc.string({ unit, maxLength: 12 }),
        fc.constantFrom(',' as const, ';' as const),
        (text, mark) => {
          expect(unguarded(guarded(text, mark), mark)).toBe(text);
        },
      ),
    );
  });

  it('numbers stay numbers, and prose stays as it is', () => {
    expect(csvText([['a', -5, 2.5, 1e-7, true, null, '-5', '+1.5e3', '-.5']])).toBe(
      'a,-5,2.5,1e-7,true,,-5,+1.5e3,-.5\r\n',
    );
    expect(csvText([['from 1 to 5; then - perhaps - more']])).toBe(
      '"from 1 to 5; then - perhaps - more"\r\n',
    );
  });

  it('a sign at the beginning of a line would take in the rest of it in another country: a text there is guarded', () => {
    expect(csvText([['-5', "1+cmd|' /C calc'!A0"]])).toBe("'-5,1+cmd|' /C calc'!A0\r\n");
  });

  it('a long run of line ends takes no longer than its length', () => {
    expect(guarded(`x${'\n'.repeat(200_000)}`, ',')).toHaveLength(200_001);
  });
});

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
    for (const separators of ['44', '59', '9']) {
      const files = [...ours, naive].map((text) => new TextEncoder().encode(text));
      const saved = await convert(files, 'xlsx', 120_000, { csv: filter(separators) });
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
    expect(opened.map((books) => formulas(books[2]!))).toEqual([['A1 =1+1'], ['B2 =1+1'], []]);
  });

  it('numbers are numbers where the separator is the one of the file', () => {
    const [commas, semicolons] = [opened[0]![0]!, opened[1]![1]!];
    for (const book of [commas, semicolons]) {
      const values = Object.values(book.sheets[0]!.cells).map(({ value }) => value);
      expect(values.filter((value) => value === -5)).toHaveLength(2 * HOSTILE.length);
    }
  });
});
