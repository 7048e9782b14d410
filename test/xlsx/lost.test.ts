import ExcelJS from 'exceljs';
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Book } from '../../src/sheets/book';
import { readXlsx, writeXlsx, XlsxError } from '../../src/xlsx';
import { measuringSheet } from './sample';

/*
 * What a file says is read whole, or refused with the place that is at fault. Parts and places of the files below
 * are those of ECMA-376-1: relationships of a worksheet 12.3.24, cells 18.3.1.4, types of cells 18.18.11.
 */

/** Changes the text of a part, or takes the part away. */
type Change = (parts: Record<string, string | undefined>) => void;

let ours: Uint8Array;
/** A file of another program with one cell of every kind: number, text, runs, date, truth, error, shared formula. */
let theirs: Uint8Array;
beforeAll(async () => {
  ours = await writeXlsx({ sheets: [measuringSheet('Run 1'), measuringSheet('Run 2')], names: [] });
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Data');
  sheet.addRow([2, 'lamp', { richText: [{ text: 'a', font: { bold: true } }, { text: 'b' }] }]);
  sheet.addRow([new Date(Date.UTC(2026, 10, 25)), true, { error: '#N/A' }]);
  // Its types know numbers only.
  sheet.fillFormula('A3:C3', 'A1&"x"', ['2x', 'lampx', 'abx'] as unknown as number[]);
  sheet.getCell('A4').note = 'as read';
  theirs = new Uint8Array(await workbook.xlsx.writeBuffer());
});

function changed(file: Uint8Array, change: Change): Uint8Array {
  const parts: Record<string, string | undefined> = Object.fromEntries(
    Object.entries(unzipSync(file)).map(([path, bytes]) => [path, strFromU8(bytes, true)]),
  );
  change(parts);
  const kept: Zippable = {};
  for (const [path, text] of Object.entries(parts)) if (text !== undefined) kept[path] = strToU8(text, true);
  return zipSync(kept);
}

/** Replaces in a part, and insists that there was something to replace. */
function swap(path: string, from: string | RegExp, to: string): Change {
  return (parts) => {
    const text = parts[path]!.replace(from, to);
    expect(text, `${path}: ${from}`).not.toBe(parts[path]);
    parts[path] = text;
  };
}
const without =
  (path: string): Change =>
  (parts) => {
    expect(parts).toHaveProperty([path]);
    parts[path] = undefined;
  };

const SHEET = 'xl/worksheets/sheet1.xml';
const BOOK = 'xl/workbook.xml';
const LINKS = 'xl/_rels/workbook.xml.rels';

async function refused(bytes: Uint8Array, words: RegExp): Promise<void> {
  const error: unknown = await readXlsx(bytes).then(
    () => 'read',
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(XlsxError);
  expect((error as XlsxError).trouble).toBe('damaged');
  expect((error as XlsxError).message).toMatch(words);
}

describe('our file without something it points at is refused, and the message says what', () => {
  const CASES: readonly [string, Change, RegExp][] = [
    ['notes', without('xl/comments1.xml'), /its part xl\/comments1\.xml is missing/],
    [
      'the list that says where notes are',
      without('xl/worksheets/_rels/sheet1.xml.rels'),
      /where the notes of its sheet "Run 1" are/,
    ],
    [
      'notes in one place',
      swap(
        'xl/worksheets/_rels/sheet1.xml.rels',
        '</Relationships>',
        '<Relationship Id="rId77" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments" Target="../comments2.xml"/></Relationships>',
      ),
      /notes in two places/,
    ],
    ['the cell of a note', swap('xl/comments1.xml', /ref="[A-Z]+\d+"/, 'ref=""'), /does not say which cell/],
    ['styles', without('xl/styles.xml'), /styles\.xml is missing/],
    ['the link to styles', swap(LINKS, /<Relationship [^>]*\/styles"[^>]*>/, ''), /format number \d+.*has 0/],
    ['a theme', without('xl/theme/theme1.xml'), /theme1\.xml is missing/],
    ['texts', without('xl/sharedStrings.xml'), /sharedStrings\.xml is missing/],
    [
      'the link to texts',
      swap(LINKS, /<Relationship [^>]*sharedStrings"[^>]*>/, ''),
      /cell A1 of the sheet "Run 1" has the text number 0, and the file has 0/,
    ],
    ['the last text', swap('xl/sharedStrings.xml', /<si>(?!.*<si>).*<\/si>/s, ''), /has the text number/],
    ['a sheet', without(SHEET), /sheet1\.xml is missing/],
    [
      'the link to a sheet',
      swap(LINKS, /<Relationship [^>]*sheet1\.xml"[^>]*>/, ''),
      /where its sheet "Run 1" is/,
    ],
    ['a kind of sheet', swap(LINKS, /\/worksheet"/, '/worksheetx"'), /of an unknown kind, worksheetx/],
    ['a name of a sheet', swap(BOOK, 'name="Run 1"', 'name=""'), /has no name/],
    [
      'two names of sheets',
      swap(BOOK, 'name="Run 1"', 'name="RUN 2"'),
      /two of its sheets are called "Run 2"/,
    ],
    [
      'the sheet of a name',
      swap(BOOK, 'localSheetId="0"', 'localSheetId="7"'),
      /its name \w+ belongs to a sheet/,
    ],
    ['the link to the workbook', without('_rels/.rels'), /no workbook part/],
    ['UTF-8', swap('xl/sharedStrings.xml', '<si>', '<si>\xe9'), /sharedStrings\.xml is not a text in UTF-8/],
  ];
  it.each(CASES)('%s', (_, change, words) => refused(changed(ours, change), words));

  it('two parts of one name, in capitals or not', async () => {
    await refused(
      changed(ours, (parts) => {
        parts['xl/Worksheets/Sheet1.xml'] = parts[SHEET];
      }),
      /Sheet1\.xml is there twice/i,
    );
  });
});

describe('a cell of another program that cannot be read whole is refused, and the message names it', () => {
  const put = (from: string | RegExp, to: string) => swap(SHEET, from, to);
  const A1 = /<c r="A1"[^>]*><v>2<\/v><\/c>/;
  const CASES: readonly [string, Change, RegExp][] = [
    ['a number with a comma', put(A1, '<c r="A1"><v>2,5</v></c>'), /cell A1 of the sheet "Data".*"2,5"/],
    ['a blank for a number', put(A1, '<c r="A1"><v> </v></c>'), /cell A1.*is a number but holds " "/],
    ['a number without end', put(A1, '<c r="A1"><v>1e999</v></c>'), /cell A1.*1e999/],
    ['a number in another base', put(A1, '<c r="A1"><v>0x10</v></c>'), /cell A1.*0x10/],
    ['an unknown type', put(A1, '<c r="A1" t="q"><v>2</v></c>'), /cell A1.*unknown type, "q"/],
    [
      'a truth that is none',
      put(A1, '<c r="A1" t="b"><v>yes</v></c>'),
      /cell A1.*true or false but holds "yes"/,
    ],
    [
      'a date that is none',
      put(A1, '<c r="A1" t="d"><v>2026-02-30</v></c>'),
      /cell A1.*is a date.*2026-02-30/,
    ],
    ['a text by its number', put(A1, '<c r="A1" t="inlineStr"><v>2</v></c>'), /cell A1.*is a text/],
    ['a text that is none', put(A1, '<c r="A1" t="s"><v>x</v></c>'), /cell A1.*text number x/],
    ['a format that is none', put(A1, '<c r="A1" s="999"><v>2</v></c>'), /cell A1.*format number 999/],
    ['a cell twice', put(A1, '<c r="A1"><v>2</v></c><c r="A1"><v>3</v></c>'), /cell A1.*is there twice/],
    ['an empty formula', put(A1, '<c r="A1"><f/><v>2</v></c>'), /cell A1.*empty formula/],
    [
      'a formula shared with nobody',
      put(A1, '<c r="A1"><f t="shared" si="9"/><v>2</v></c>'),
      /cell A1.*shares the formula of another cell, which is missing/,
    ],
  ];
  it.each(CASES)('%s', (_, change, words) => refused(changed(theirs, change), words));
});

describe('what is written in another way than ours is read all the same', () => {
  async function cellsOf(change: Change) {
    return (await readXlsx(changed(theirs, change))).sheets[0]!.cells;
  }
  const cell = (xml: string) => swap(SHEET, /<c r="A1"[^>]*><v>2<\/v><\/c>/, xml);

  it('the file as it is', async () => {
    const cells = await cellsOf(() => {});
    const values = Object.fromEntries(Object.entries(cells).map(([at, { value }]) => [at, value]));
    // 25 November 2026 is day 46351 of the spreadsheet calendar (DATE(2026,11,25) in LibreOffice).
    expect(values).toEqual({
      ...{ A1: 2, B1: 'lamp', C1: 'ab', A2: 46351, B2: true, C2: { error: '#N/A' } },
      ...{ A3: '2x', B3: 'lampx', C3: 'abx' },
    });
    expect(cells.C3!.formula).toBe('=C1&"x"');
  });

  it.each<[string, string, unknown]>([
    ['runs of text in the cell', '<is><r><t>two </t></r><r><rPr><b/></rPr><t>bold</t></r></is>', 'two bold'],
    ['a text in the cell', '<is><t xml:space="preserve"> two</t></is>', ' two'],
    ['a text in CDATA', '<is><t><![CDATA[a<b]]></t></is>', 'a<b'],
  ])('%s', async (_, xml, value) => {
    expect((await cellsOf(cell(`<c r="A1" t="inlineStr">${xml}</c>`))).A1!.value).toBe(value);
  });

  // Days by DATE and DATEVALUE in LibreOffice and, before March 1900, by ECMA-376-1, 18.17.4.1 (from memory).
  it.each([
    ['2026-11-25', 46351],
    ['2026-11-25T06:00:00', 46351.25],
    ['2000-03-01T00:00:00Z', 36586],
    ['1900-01-01', 1],
    ['1900-03-01', 61],
  ])('a date of a strict workbook: %s', async (text, day) => {
    expect((await cellsOf(cell(`<c r="A1" t="d"><v>${text}</v></c>`))).A1!.value).toBe(day);
    // As a text it stays one.
    expect((await cellsOf(cell(`<c r="A1" t="str"><v>${text}</v></c>`))).A1!.value).toBe(text);
  });

  it('cells that do not say where they are, dates among them', async () => {
    const whole = await cellsOf(() => {});
    const bare = await cellsOf((parts) => {
      parts[SHEET] = parts[SHEET]!.replace(/(<(?:c|row)\b[^>]*?) r="[^"]*"/g, '$1');
    });
    expect(bare).toEqual(whole);
  });

  it('a shared formula whose text stands in a later cell', async () => {
    const cells = await cellsOf(
      cell(
        '<c r="A1"><f t="shared" si="8"/><v>2</v></c><c r="AA1"><f t="shared" si="8" ref="A1:AA1">AA9+1</f><v>1</v></c>',
      ),
    );
    expect([cells.A1!.formula, cells.AA1!.formula]).toEqual(['=A9+1', '=AA9+1']);
  });

  it('an array formula in one cell, which stays one when the file is written anew', async () => {
    const book = await readXlsx(
      changed(theirs, cell('<c r="A1"><f t="array" ref="A1">SUM(B1:B2*C1:C2)</f><v>2</v></c>')),
    );
    expect(book.sheets[0]!.cells.A1).toMatchObject({ formula: '=SUM(B1:B2*C1:C2)', spill: 'A1' });
    const again = strFromU8(unzipSync(await writeXlsx(book))[SHEET]!);
    expect(again).toMatch(/<f t="array" ref="A1"[^>]*>SUM\(B1:B2\*C1:C2\)<\/f>/);
  });

  it('a data table, whose results are values', async () => {
    const table = '<c r="A1"><f t="dataTable" ref="A1" dt2D="0" dtr="0" r1="B9"/><v>2</v></c>';
    expect((await cellsOf(cell(table))).A1).toMatchObject({ value: 2 });
  });

  it('a formula that refers to another file', async () => {
    const cells = await cellsOf(cell('<c r="A1"><f>[1]Other!$B$2*2</f><v>2</v></c>'));
    expect(cells.A1).toMatchObject({ formula: '=[1]Other!$B$2*2', value: 2 });
  });

  it('errors that came with newer programs stay errors', async () => {
    for (const kind of ['#SPILL!', '#CALC!', '#FIELD!', '#BLOCKED!'])
      expect((await cellsOf(cell(`<c r="A1" t="e"><v>${kind}</v></c>`))).A1!.value).toHaveProperty('error');
  });

  const whole = async (change: Change): Promise<Book> => readXlsx(changed(ours, change));
  it.each<[string, Change]>([
    [
      'backslashes between folders',
      (parts) => {
        for (const [path, text] of Object.entries(parts)) {
          delete parts[path];
          parts[path.replaceAll('/', '\\')] = text;
        }
      },
    ],
    ['a roundabout way to a part', swap(LINKS, '"worksheets/sheet1.xml"', '"../xl/./worksheets/sheet1.xml"')],
    ['a way from the top', swap(LINKS, '"worksheets/sheet1.xml"', '"/xl/worksheets/sheet1.xml"')],
    [
      'a workbook part of another name',
      (parts) => {
        parts['xl/book7.xml'] = parts[BOOK];
        parts['xl/_rels/book7.xml.rels'] = parts[LINKS];
        delete parts[BOOK];
        delete parts[LINKS];
        swap('_rels/.rels', 'xl/workbook.xml', 'xl/book7.xml')(parts);
        swap('[Content_Types].xml', 'xl/workbook.xml', 'xl/book7.xml')(parts);
      },
    ],
    [
      'an unknown part',
      swap(
        'xl/worksheets/_rels/sheet1.xml.rels',
        '</Relationships>',
        '<Relationship Id="rId78" Type="http://example.org/unknown" Target="../unknown.xml"/></Relationships>',
      ),
    ],
    ['a mark of the order of bytes', (parts) => (parts[SHEET] = `\xef\xbb\xbf${parts[SHEET]}`)],
    [
      'a remark between cells',
      swap(SHEET, '<sheetData>', '<sheetData><!-- <row r="1"><c r="A1"><v>1</v></c></row> -->'),
    ],
  ])('%s', async (_, change) => {
    expect(await whole(change)).toEqual(await whole(() => {}));
  });
});
