import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Mark, split } from '../../src/csv/split';
import { isRefusal, likelyMarks, type Reader, readTable, type Table } from '../../src/csv/table';
import { csvText } from '../../src/csv/write';

/* Cells, quotation marks and line ends: RFC 4180, section 2. Other marks than commas: common practice. */

const cells = (text: string, mark: Mark) => split(text, mark).map((line) => line.cells);

describe('a text is taken apart', () => {
  it.each<[string, Mark, string, string[][]]>([
    [
      'tabs',
      'tab',
      'a\tb\nc\td',
      [
        ['a', 'b'],
        ['c', 'd'],
      ],
    ],
    ['semicolons', 'semicolon', 'a;b,c\n', [['a', 'b,c']]],
    ['commas', 'comma', 'a, b\n', [['a', ' b']]],
    ['commas with spaces', 'comma and space', '24,8, 25,1', [['24,8', '25,1']]],
    [
      'runs of spaces, also around a line',
      'space',
      '  a   b \n c d',
      [
        ['a', 'b '],
        ['c', 'd'],
      ],
    ],
    ['nothing', 'none', 'a b\nc;d', [['a b'], ['c;d']]],
    ['an empty line between', 'comma', 'a\n\nb', [['a'], [''], ['b']]],
    ['empty cells at the end', 'comma', 'a,,\n', [['a', '', '']]],
    ['Windows line ends, old Mac ones, a mark in front', 'comma', '\ufeffa\r\nb\rc', [['a'], ['b'], ['c']]],
    ['the mark in a quoted cell', 'comma', '"a,b",c', [['a,b', 'c']]],
    ['quotation marks in a quoted cell', 'comma', '"a ""b""",c', [['a "b"', 'c']]],
    ['a line end in a quoted cell', 'semicolon', '"a\nb";c\nd', [['a\nb', 'c'], ['d']]],
    ['spaces around a quoted cell', 'comma', ' "a" ,"b"', [['a', 'b']]],
    ['quoted cells between spaces', 'space', '"a b" "c"', [['a b', 'c']]],
    ['an inch sign inside a cell', 'comma', '19" screen,b', [['19" screen', 'b']]],
    ['an empty quoted cell', 'comma', '"",b', [['', 'b']]],
  ])('with %s', (_what, mark, text, expected) => expect(cells(text, mark)).toEqual(expected));

  it('lines keep the number they have in the text', () => {
    expect(split('"a\nb",1\n\nc,2', 'comma').map(({ line }) => line)).toEqual([1, 3, 4]);
  });

  it('a quotation mark that is never closed swallows nothing, and is told', () => {
    expect(split('a,1\n"b,2\nc,3', 'comma')).toMatchObject([
      { line: 1, cells: ['a', '1'] },
      { line: 2, raw: '"b,2', cells: ['"b', '2'], fault: 'a quotation mark is never closed' },
      { line: 3, cells: ['c', '3'] },
    ]);
    expect(split('"10"5,2', 'comma')).toMatchObject([
      { line: 1, cells: ['"10"5', '2'], fault: 'text after a closing quotation mark' },
    ]);
  });

  it('whatever is written comes back', () => {
    const cell = fc.string({ maxLength: 12, unit: fc.constantFrom(...'ab1 ",;\n\t-') });
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
        (rows) => {
          // A letter in front: what is written before signs and line ends has tests of its own.
          const named = rows.map((row) => row.map((text) => `x${text.replace(/[;\t\n]/g, '|')}`));
          expect(cells(csvText(named), 'comma')).toEqual(named);
        },
      ),
    );
  });
});

describe('a table is read within bounds', () => {
  const reader = (lines: number): Reader<Table> => ({
    bounds: { what: 'a list of tests', characters: 2_000_000, lines },
    marks: likelyMarks,
    describe: (table) => table,
    score: ({ columns }) => columns,
  });
  const refusal = (text: string, lines = 10) => {
    const found = readTable(text, reader(lines));
    return isRefusal(found) ? found : undefined;
  };

  it('nothing is no table', () => expect(readTable(' \n\t', reader(10))).toBeUndefined());

  it('200 000 lines are refused by their number, or read where so many are allowed besides a heading', () => {
    const text = '1;2\n'.repeat(200_000);
    expect(refusal(text)).toEqual({
      refused: 'too many lines',
      message:
        'There are 200000 lines; a list of tests has at most 10: choose another file, or take it in parts.',
    });
    expect(readTable(text, reader(199_999))).toMatchObject({ mark: 'semicolon', columns: 2 });
  });

  it('a long text and one that is none are refused', () => {
    expect(refusal('x'.repeat(2_000_001))).toMatchObject({ refused: 'too much text' });
    expect(refusal('PK\u0003\u0004\u0000')).toMatchObject({ refused: 'no text' });
  });

  it('hostile quotation marks take no longer than their length', () => {
    for (const text of ['"\n', '"a\n', '""', '"" ', '"a,"b\n']) {
      expect(split(text.repeat(100_000), 'comma').length).toBeGreaterThan(0);
    }
  });
});
