import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { readXlsx, writeXlsx, XlsxError } from '../../src/xlsx';
import type { XlsxTrouble } from '../../src/xlsx/error';
import { amount } from '../tools/amount';
import { bookWith, measuringSheet } from './sample';

let good: Uint8Array;
beforeAll(async () => {
  good = await writeXlsx({ sheets: [measuringSheet('Run 1')], names: [] });
});

/** The good file with parts exchanged, added or (undefined) taken away. */
function changed(parts: Record<string, string | Uint8Array | undefined>): Uint8Array {
  const all: Record<string, Uint8Array> = unzipSync(good);
  for (const [path, part] of Object.entries(parts)) {
    if (part === undefined) delete all[path];
    else all[path] = typeof part === 'string' ? strToU8(part) : part;
  }
  return zipSync(all);
}

function sheetXml(data: string): string {
  return `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">${data}</worksheet>`;
}
const BOOK_OPEN =
  '<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">';
const BOOK = `${BOOK_OPEN}<sheets><sheet name="Run 1" sheetId="1" r:id="rId1"/></sheets></workbook>`;
const SHEET = 'xl/worksheets/sheet1.xml';

async function refusal(bytes: Uint8Array): Promise<XlsxError> {
  const error: unknown = await readXlsx(bytes).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(XlsxError);
  return error as XlsxError;
}

describe('files that are refused, in words for a person', () => {
  const CASES: readonly [string, () => Uint8Array, XlsxTrouble, RegExp][] = [
    ['nothing', () => new Uint8Array(), 'format', /not an \.xlsx workbook/],
    ['a table as text', () => strToU8('point;lx\n1;248\n'), 'format', /not an \.xlsx workbook/],
    ['an old or locked file', () => new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), 'locked', /password/],
    ['a zip of something else', () => zipSync({ 'a.txt': strToU8('a') }), 'format', /not an \.xlsx workbook/],
    [
      'an OpenDocument file',
      () => zipSync({ mimetype: strToU8('x'), 'content.xml': strToU8('x') }),
      'format',
      /\.xlsx/,
    ],
    ['a binary workbook', () => changed({ 'xl/workbook.bin': 'x' }), 'format', /not an \.xlsx workbook/],
    ['macros', () => changed({ 'xl/vbaProject.bin': 'x' }), 'macros', /macros/],
    ['old macro sheets', () => changed({ 'xl/macrosheets/sheet1.xml': 'x' }), 'macros', /macros/],
    ['a file cut short', () => good.subarray(0, good.length - 30), 'damaged', /cut short/],
    ['a missing workbook part', () => changed({ 'xl/workbook.xml': undefined }), 'damaged', /damaged/],
    ['a missing sheet', () => changed({ [SHEET]: undefined }), 'damaged', /sheet1\.xml is missing/],
    [
      'missing texts',
      () => changed({ 'xl/sharedStrings.xml': undefined }),
      'damaged',
      /sharedStrings\.xml is missing/,
    ],
    ['broken XML', () => changed({ [SHEET]: '<worksheet><sheetData' }), 'damaged', /damaged/],
    ['17 MB', () => new Uint8Array(17_000_000).fill(0x50, 0, 1).fill(0x4b, 1, 2), 'big', /too big/],
    [
      'too many parts',
      () => zipSync(Object.fromEntries(Array.from({ length: 2100 }, (_, n) => [`${n}`, strToU8('')]))),
      'big',
      /2100 parts/,
    ],
    [
      'a cell in the last corner',
      () =>
        changed({
          [SHEET]: sheetXml('<sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'),
        }),
      'big',
      /Run 1.*below row/,
    ],
    [
      'a cell far right',
      () =>
        changed({ [SHEET]: sheetXml('<sheetData><row r="1"><c r="XFD1"><v>1</v></c></row></sheetData>') }),
      'big',
      /beyond column IV/,
    ],
    [
      'endless column widths',
      () =>
        changed({
          [SHEET]: sheetXml(
            `<cols>${'<col min="1" max="16384" width="9"/>'.repeat(3000)}</cols><sheetData/>`,
          ),
        }),
      'big',
      /column widths/,
    ],
    [
      'an input rule for no cells',
      () =>
        changed({
          [SHEET]: sheetXml(
            '<sheetData/><dataValidations count="1"><dataValidation type="custom" sqref="B2 =1+1"><formula1>TRUE</formula1></dataValidation></dataValidations>',
          ),
        }),
      'damaged',
      /an input rule of its sheet “Run 1” is for “=1\+1”/,
    ],
    [
      'a conditional format for no cells',
      () =>
        changed({
          [SHEET]: sheetXml(
            '<sheetData/><conditionalFormatting sqref="B0"><cfRule type="colorScale" priority="1"><colorScale><cfvo type="min"/><cfvo type="max"/><color rgb="FFFFFFFF"/><color rgb="FF000000"/></colorScale></cfRule></conditionalFormatting>',
          ),
        }),
      'damaged',
      /a conditional format of its sheet “Run 1” is for “B0”/,
    ],
  ];
  it.each(CASES)('%s', async (_, bytes, trouble, words) => {
    const error = await refusal(bytes());
    expect(error.trouble).toBe(trouble);
    expect(error.message).toMatch(words);
    expect(error.remedy).not.toBe('');
  });
});

it('an input rule of whole columns and rows is read as one of their cells', async () => {
  const rule = (sqref: string) =>
    `<dataValidation type="custom" sqref="${sqref}"><formula1>TRUE</formula1></dataValidation>`;
  const book = await readXlsx(
    changed({
      [SHEET]: sheetXml(`<sheetData/><dataValidations count="1">${rule('B:$D 2:3 $C$4')}</dataValidations>`),
    }),
  );
  expect(book.sheets[0]!.validations.map(({ range }) => range)).toEqual(['B1:D1048576', 'A2:XFD3', '$C$4']);
});

it('an input rule with a number or a day that no cell can hold (ECMA-376-1, 18.17.4.1) is left out', async () => {
  const rule = (at: string, type: string, operator: string, first: string) =>
    `<dataValidation type="${type}" operator="${operator}" sqref="${at}"><formula1>${first}</formula1></dataValidation>`;
  const rules = [
    rule('B1', 'date', 'greaterThanOrEqual', '2958465'),
    rule('B2', 'date', 'greaterThanOrEqual', '2958466'),
    rule('B3', 'date', 'greaterThanOrEqual', '99999999999999999999'),
    rule('B4', 'date', 'greaterThanOrEqual', '-1'),
    rule('B5', 'decimal', 'greaterThanOrEqual', '1e999'),
    rule('B6', 'textLength', 'lessThanOrEqual', '1e999'),
  ].join('');
  const book = await readXlsx(
    changed({ [SHEET]: sheetXml(`<sheetData/><dataValidations count="6">${rules}</dataValidations>`) }),
  );
  expect(book.sheets[0]!.validations.map(({ range, rule }) => [range, rule])).toEqual([
    ['B1', { type: 'date', min: '9999-12-31' }],
  ]);
});

describe('workbooks of many sheets', () => {
  it('are read: what counts is the size of the file and not the number of its sheets', async () => {
    const sheets = Array.from({ length: 200 }, (_, i) => measuringSheet(`Run ${i + 1}`));
    expect((await readXlsx(await writeXlsx({ sheets, names: [] }))).sheets).toHaveLength(200);
  });

  it.each([
    ['that say where they are', '<row r="10000"><c r="IV10000"><v>1</v></c></row>'],
    ['beside a decoy', '<row r="10000"><c x=">" y=" r=\'A1\'" r="IV10000"><v>1</v></c></row>'],
    ['that only follow one another', `<row>${'<c/>'.repeat(256)}</row>${'<row><c/></row>'.repeat(9999)}`],
  ])(
    'are refused where cells lie so far apart that empty ones would fill the memory: cells %s',
    async (_, data) => {
      // 10 sheets of 10 000 rows and 256 columns are 25.6 million places, by arithmetic.
      const sheets = Array.from({ length: 10 }, (_, i) => measuringSheet(`Run ${i + 1}`));
      const parts = unzipSync(await writeXlsx({ sheets, names: [] }));
      for (const at of sheets.keys())
        parts[`xl/worksheets/sheet${at + 1}.xml`] = strToU8(sheetXml(`<sheetData>${data}</sheetData>`));
      const error = await refusal(zipSync(parts));
      expect(error.trouble).toBe('big');
      expect(error.message).toMatch(/25600000 would be laid out/);
    },
  );

  it('are refused with too many cells, although none says where it is', async () => {
    const data = `<row>${'<c/>'.repeat(100)}</row>`.repeat(9000);
    const error = await refusal(changed({ [SHEET]: sheetXml(`<sheetData>${data}</sheetData>`) }));
    expect(error.message).toMatch(/more than 750000 cells/);
  });

  it('are refused where one part is listed again and again', async () => {
    const again = (n: number) => `<sheet name="S${n}" sheetId="${n}" r:id="rId1"/>`;
    const xml = `${BOOK_OPEN}<sheets>${Array.from({ length: 1900 }, (_, n) => again(n + 1)).join('')}</sheets></workbook>`;
    const error = await refusal(changed({ 'xl/workbook.xml': xml }));
    expect(error.message).toMatch(/listed as two sheets/);
  });
});

describe('files that want more memory or time than they look', () => {
  it('is not unpacked when it says how large it is', async () => {
    const error = await refusal(changed({ [SHEET]: new Uint8Array(100_000_000) }));
    expect(error.message).toMatch(/too big: \d+ MB unpacked/);
  });

  it('is not unpacked further when it lies about its size', async () => {
    const bomb = zipSync({ '[Content_Types].xml': new Uint8Array(100_000_000) }, { level: 9 });
    const view = new DataView(bomb.buffer, bomb.byteOffset);
    // The stated size stands at byte 24 of the entry in the table of contents, which the last 22 bytes point to.
    view.setUint32(view.getUint32(bomb.length - 6, true) + 24, 1000, true);
    expect((await refusal(bomb)).message).toMatch(/larger than it says/);
  });

  it('does not expand entities', async () => {
    const laughs = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i']
      .map((name, at, all) => `<!ENTITY ${name} "${at === 0 ? 'ha' : `&${all[at - 1]};`.repeat(10)}">`)
      .join('');
    const cell = '<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>&i;</t></is></c></row></sheetData>';
    const outcome = await readXlsx(changed({ [SHEET]: `<!DOCTYPE x [${laughs}]>${sheetXml(cell)}` })).catch(
      (error: unknown) => error,
    );
    expect(JSON.stringify(outcome).length).toBeLessThan(10_000);
  });

  it.each([
    ['open cells', '<c '],
    ['open names', '<definedName '],
    ['cells without an end', '<c r="A1" s="1">'],
    ['sheets', "<sheet name='"],
  ])('reads a file full of %s in one go', { timeout: 20_000 }, async (_, piece) => {
    const flood = piece.repeat(Math.floor(5_000_000 / piece.length));
    const bytes = changed({ [SHEET]: flood, 'xl/workbook.xml': `${BOOK}${flood}` });
    expect(await readXlsx(bytes).catch((error: unknown) => error)).toBeInstanceOf(XlsxError);
  });

  it('survives deep nesting', async () => {
    const deep = `${'<a>'.repeat(200_000)}${'</a>'.repeat(200_000)}`;
    const outcome = await readXlsx(changed({ 'xl/sharedStrings.xml': `<sst>${deep}</sst>` })).catch(
      (error: unknown) => error,
    );
    expect(outcome instanceof XlsxError || typeof outcome === 'object').toBe(true);
  });
});

describe('damage anywhere', () => {
  it('cut at any byte: always refused', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: good.length - 1 }), async (length) => {
        await refusal(good.subarray(0, length));
      }),
      { numRuns: amount(50, 200) },
    );
  });

  it('any byte changed: refused, or read with nothing changed', async () => {
    const whole = await readXlsx(good);
    await fc.assert(
      fc.asyncProperty(fc.nat(good.length - 1), fc.integer({ min: 1, max: 255 }), async (at, change) => {
        const bytes = good.slice();
        bytes[at]! ^= change;
        try {
          expect(await readXlsx(bytes)).toEqual(whole);
        } catch (error) {
          if (!(error instanceof XlsxError)) throw error;
        }
      }),
      { numRuns: amount(100, 500) },
    );
  });

  // Where the counts stand: PKWARE's APPNOTE.TXT, 4.3.16, "End of central directory record", 22 bytes without a comment.
  it.each([
    ['the count of all parts', [10]],
    ['the count of parts on this disk', [8]],
    ['both counts', [8, 10]],
  ])('fewer parts listed than there are, by %s: refused', async (_, places) => {
    const view = new DataView(good.buffer, good.byteOffset, good.byteLength);
    const count = view.getUint16(good.length - 22 + 10, true);
    expect(count).toBe(Object.keys(unzipSync(good)).length);
    for (let fewer = 0; fewer < count; fewer++) {
      const bytes = good.slice();
      for (const at of places) new DataView(bytes.buffer).setUint16(bytes.length - 22 + at, fewer, true);
      await refusal(bytes);
    }
  });

  it('any bit of the last record changed: refused, or read with nothing changed', async () => {
    const whole = await readXlsx(good);
    for (let at = good.length - 22; at < good.length; at++) {
      for (let bit = 1; bit < 256; bit *= 2) {
        const bytes = good.slice();
        bytes[at]! ^= bit;
        const outcome = await readXlsx(bytes).catch((error: unknown) => error);
        if (!(outcome instanceof XlsxError)) expect(outcome).toEqual(whole);
      }
    }
  });

  it('any character of the sheet changed: read or refused, never anything else', async () => {
    const xml = strFromU8(unzipSync(good)[SHEET]!);
    await fc.assert(
      fc.asyncProperty(
        fc.nat(xml.length - 1),
        fc.constantFrom('<', '>', '"', '&', '9', 'x', ''),
        async (at, put) => {
          const bytes = changed({ [SHEET]: xml.slice(0, at) + put + xml.slice(at + 1) });
          await readXlsx(bytes).catch((error: unknown) => {
            if (!(error instanceof XlsxError)) throw error;
          });
        },
      ),
      { numRuns: amount(100, 500) },
    );
  });
});

describe('workbooks that cannot be written', () => {
  const message = { title: '', message: '' };
  const refusalText = { ...message, style: 'stop' as const };
  it.each([
    ['no visible sheet', bookWith({ visibility: 'hidden' }), /visible sheet/],
    ['a sheet name with a colon', bookWith({ name: 'a:b' }), /a:b/],
    ['two sheets of one name', bookWith({ name: 'Run' }, { name: 'RUN' }), /RUN/],
    ['no number', bookWith({ cells: { B2: { value: Number.NaN } } }), /B2/],
    ['a text that is too long', bookWith({ cells: { B2: { value: 'x'.repeat(32768) } } }), /32768/],
    [
      'a formula that is too long',
      bookWith({ cells: { B2: { value: 1, formula: `=1${'+1'.repeat(4100)}` } } }),
      /8192/,
    ],
    [
      'a choice with a comma',
      bookWith({
        validations: [
          { range: 'B2', rule: { type: 'list', choices: ['a,b'] }, prompt: message, refusal: refusalText },
        ],
      }),
      /comma/,
    ],
    [
      'a long prompt',
      bookWith({
        validations: [
          {
            range: 'B2',
            rule: { type: 'length', max: 3 },
            prompt: { title: '', message: 'x'.repeat(256) },
            refusal: refusalText,
          },
        ],
      }),
      /256.*255/,
    ],
  ])('%s', async (_, book, words) => {
    const error = await writeXlsx(book).then(
      () => undefined,
      (reason: unknown) => reason,
    );
    expect(error).toBeInstanceOf(XlsxError);
    expect((error as XlsxError).message).toMatch(words);
  });
});
