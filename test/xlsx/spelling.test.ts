import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { readXlsx, writeXlsx, XlsxError } from '../../src/xlsx';
import { readForeign } from '../tools/foreign';
import { convert } from '../tools/libreoffice';
import { measuringSheet } from './sample';

/*
 * Files that two programs could read in two ways. The other reader is LibreOffice: a file that we read, it reads alike.
 * Namespaces: "Namespaces in XML 1.0", 5 and 6; where elements stand: ECMA-376-1, 18.2 to 18.8; links of a part have
 * ids of their own: ECMA-376-2, 9.3.2.2.
 */

let good: Uint8Array;
beforeAll(async () => {
  good = await writeXlsx({ sheets: [measuringSheet('Run 1')], names: [] });
});

const SHEET = 'xl/worksheets/sheet1.xml';
const BOOK = 'xl/workbook.xml';
const LINKS = 'xl/_rels/workbook.xml.rels';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';

/** The good file with a piece of a part exchanged; the piece must be there. */
function changed(path: string, from: string | RegExp, to: string): Uint8Array {
  const parts = unzipSync(good);
  const before = strFromU8(parts[path]!);
  const after = before.replace(from, to);
  expect(after, `${path} has no ${from}`).not.toBe(before);
  parts[path] = strToU8(after);
  return zipSync(parts);
}

/** What is refused, and the words that say where. B9 is the first reading of the sheet. */
const REFUSED: readonly [string, () => Uint8Array, RegExp][] = [
  [
    'a cell of a foreign namespace before the real one',
    () => changed(SHEET, '<c r="B9"', '<zz:c xmlns:zz="urn:x" r="B9"><zz:v>3999</zz:v></zz:c><c r="B9"'),
    /sheet1\.xml has <zz:c> of the foreign namespace "urn:x"/,
  ],
  [
    'a row of a foreign namespace',
    () => changed(SHEET, '<sheetData>', '<sheetData><zz:row xmlns:zz="urn:x" r="1"/>'),
    /<zz:row>/,
  ],
  [
    'cells among the choices of another program version',
    () =>
      changed(
        SHEET,
        '<sheetData>',
        '<mc:AlternateContent xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"><mc:Choice Requires="zz" xmlns:zz="urn:x"><sheetData/></mc:Choice></mc:AlternateContent><sheetData>',
      ),
    /<sheetData> where none belongs, in AlternateContent\/Choice/,
  ],
  ['a second list of rows', () => changed(SHEET, '</sheetData>', '</sheetData><sheetData/>'), /twice/],
  [
    'cells inside an extension',
    () =>
      changed(
        SHEET,
        '</worksheet>',
        '<extLst><ext uri="x"><row r="9"><c r="B9"><v>1</v></c></row></ext></extLst></worksheet>',
      ),
    /<row> where none belongs/,
  ],
  ['two values in a cell', () => changed(SHEET, /(<c r="B9"[^>]*>)<v>/, '$1<v>1</v><v>'), /<v> twice in c/],
  [
    'a remark inside a number',
    () => changed(SHEET, /(<c r="B9"[^>]*><v>\d)/, '$1<!-- -->'),
    /a remark inside <v>/,
  ],
  [
    'a place in a foreign namespace',
    () => changed(SHEET, '<c r="B9"', '<c xmlns:zz="urn:x" zz:r="C9" r="B9"'),
    /the attribute zz:r/,
  ],
  [
    'a link by a prefix of another meaning',
    () => changed(BOOK, /xmlns:r="[^"]*"/, 'xmlns:r="urn:x"'),
    /the attribute r:id of the foreign namespace "urn:x" in <sheet>/,
  ],
  [
    'a second list of sheets',
    () => changed(BOOK, '</sheets>', '</sheets><sheets/>'),
    /<sheets> twice in workbook/,
  ],
  [
    'a sheet of a foreign namespace',
    () => changed(BOOK, '<sheets>', '<sheets><zz:sheet xmlns:zz="urn:x" name="Run 2"/>'),
    /<zz:sheet>/,
  ],
  [
    'two links of one id',
    () =>
      changed(
        LINKS,
        '</Relationships>',
        '<Relationship Id="rId1" Type="x/worksheet" Target="worksheets/sheet2.xml"/></Relationships>',
      ),
    /two links of the id "rId1"/,
  ],
  [
    'a workbook of another namespace',
    () => changed(BOOK, MAIN, 'urn:x'),
    /begins with <workbook> of the namespace "urn:x"/,
  ],
  [
    'a document type',
    () => changed(SHEET, '<worksheet', '<!DOCTYPE worksheet []><worksheet'),
    /document type/,
  ],
  ['an end that is not there', () => changed(SHEET, '</worksheet>', ''), /no well-formed XML/],
  ['an attribute twice', () => changed(SHEET, '<c r="B9"', '<c r="C9" r="B9"'), /no well-formed XML/],
  [
    'a table that fills a whole sheet',
    () => changed(SHEET, /<c r="B9"([^>]*)>/, '<c r="B9"$1><f t="array" ref="A1:XFD1048576">1+1</f>'),
    /fills A1:XFD1048576, beyond A1:IV10000/,
  ],
  [
    'a table that fills no range',
    () => changed(SHEET, /<c r="B9"([^>]*)>/, '<c r="B9"$1><f t="array" ref="B:B">1+1</f>'),
    /fills "B:B", which is no range/,
  ],
];

describe('spelt so that two programs read two workbooks', () => {
  it.each(REFUSED)('is refused: %s', async (_, file, words) => {
    const error = await readXlsx(file()).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(XlsxError);
    expect((error as XlsxError).message).toMatch(words);
  });
});

/** As programs write them, or may. */
const READ: readonly [string, () => Uint8Array][] = [
  ['as written', () => good],
  [
    'all elements of the sheet with a prefix',
    () => {
      const parts = unzipSync(good);
      const xml = strFromU8(parts[SHEET]!);
      const prefixed = xml
        .replace(/<(\/?)(?=[a-zA-Z])/g, '<$1x:')
        .replace(`xmlns="${MAIN}"`, `xmlns:x="${MAIN}"`);
      parts[SHEET] = strToU8(prefixed);
      return zipSync(parts);
    },
  ],
  [
    'links by a prefix of its own',
    () => {
      const parts = unzipSync(good);
      const xml = strFromU8(parts[BOOK]!);
      parts[BOOK] = strToU8(xml.replace('xmlns:r=', 'xmlns:link=').replaceAll(' r:id=', ' link:id='));
      return zipSync(parts);
    },
  ],
  [
    'what later program versions add',
    () =>
      changed(
        SHEET,
        '</worksheet>',
        `<extLst><ext uri="{x}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:conditionalFormattings><x14:conditionalFormatting xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"><x14:cfRule type="expression"><xm:f>1=1</xm:f></x14:cfRule><xm:sqref>A1</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst></worksheet>`,
      ),
  ],
  ['a remark between cells', () => changed(SHEET, '<sheetData>', '<!-- x --><sheetData>')],
];

it('what is read is what LibreOffice reads', { timeout: 120_000 }, async () => {
  const files = READ.map(([, file]) => file());
  const others = await convert(files, 'xlsx');
  for (const [i, file] of files.entries()) {
    const ours = await readXlsx(file);
    const theirs = await readForeign(others[i]!);
    expect(
      theirs.sheets.map(({ name }) => name),
      READ[i]![0],
    ).toEqual(ours.sheets.map(({ name }) => name));
    for (const [at, { value, formula }] of Object.entries(ours.sheets[0]!.cells))
      if (formula === undefined && value !== null)
        expect(theirs.sheets[0]!.cells[at]?.value, `${READ[i]![0]}, ${at}`).toEqual(value);
  }
});
