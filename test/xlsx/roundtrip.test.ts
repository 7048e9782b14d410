import fc from 'fast-check';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import type { Book, ErrorKind } from '../../src/sheets/book';
import { readXlsx, rewriteXlsx, writeXlsx } from '../../src/xlsx';
import { amount } from '../tools/amount';
import { book } from './arbitrary';
import { bookWith, measuringSheet } from './sample';

async function roundTrip(whole: Book): Promise<Book> {
  return readXlsx(await writeXlsx(whole));
}

async function part(whole: Book, path: string, cachedValues = true): Promise<string> {
  return strFromU8(unzipSync(await writeXlsx(whole, { cachedValues }))[path]!);
}

describe('a workbook written and read again', () => {
  it('is the same, for a measuring sheet and its copy', async () => {
    const whole: Book = {
      sheets: [measuringSheet('Run 1'), measuringSheet("Anna's, run 2")],
      names: [{ name: 'Fleet', refersTo: '="reading rooms"', comment: 'invented' }],
      active: "Anna's, run 2",
    };
    expect(await roundTrip(whole)).toEqual(whole);
  });

  it('is the same, whatever it holds', { timeout: 120_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(book, async (whole) => {
        expect(await roundTrip(whole)).toEqual(whole);
      }),
      { numRuns: amount(60, 300) },
    );
  });

  it('is the same twice over: what was read writes the same cells again', async () => {
    const first = await writeXlsx({ sheets: [measuringSheet('Run 1')], names: [] });
    const second = await writeXlsx(await readXlsx(first));
    const cells = (bytes: Uint8Array) => strFromU8(unzipSync(bytes)['xl/worksheets/sheet1.xml']!);
    expect(cells(second)).toBe(cells(first));
  });
});

describe('what a file cannot say', () => {
  it('the newer errors become #VALUE!, as in the files of Excel; the message behind an error goes', async () => {
    const { sheets } = await roundTrip(
      bookWith({
        cells: {
          A1: { value: { error: '#SPILL!' }, formula: '=LIGHT.TABLE(1)' },
          A2: { value: { error: '#BUSY!' } },
          A3: { value: { error: '#N/A', message: '2 readings are missing' } },
        },
      }),
    );
    expect(sheets[0]!.cells.A1!.value).toEqual({ error: '#VALUE!' });
    expect(sheets[0]!.cells.A2!.value).toEqual({ error: '#VALUE!' });
    expect(sheets[0]!.cells.A3!.value).toEqual({ error: '#N/A' });
  });

  it('a workbook with nothing in front opens on its first visible sheet', async () => {
    const whole = bookWith({ name: 'a', visibility: 'hidden' }, { name: 'b' });
    expect((await roundTrip({ ...whole, active: 'a' })).active).toBe('b');
  });
});

describe('the file itself', () => {
  const computed = bookWith({
    cells: {
      A1: { value: 3, formula: '=LIGHT.OUTPUT(B1:B9)' },
      A2: { value: { error: '#N/A' }, formula: '=NA()' },
      A3: { value: '#N/A', formula: '="#N/A"' },
      C1: { value: 1, formula: '=LIGHT.SIZE(1)', spill: 'C1:C2' },
      C2: { value: 2 },
    },
    names: [
      { name: 'Seen', refersTo: "='Sheet 1'!$A$1" },
      { name: 'LightSheet', refersTo: '="run;1;a"', hidden: true },
    ],
  });

  it('stores a custom function as Excel does: a dynamic array, with its value', async () => {
    // The form Excel saves, as documented in the public reproduction of OfficeDev/office-js issue 6611.
    const xml = await part(computed, 'xl/worksheets/sheet1.xml');
    expect(xml).toContain(
      '<c r="A1" cm="1"><f t="array" ref="A1">_xldudf_LIGHT_OUTPUT(B1:B9)</f><v>3</v></c>',
    );
    expect(xml).toContain('<c r="C1" cm="1"><f t="array" ref="C1:C2">_xldudf_LIGHT_SIZE(1)</f><v>1</v></c>');
    expect(await part(computed, 'xl/metadata.xml')).toContain('fDynamic="1"');
  });

  it('tells an error from a text that looks like one', async () => {
    const xml = await part(computed, 'xl/worksheets/sheet1.xml');
    expect(xml).toContain('<c r="A2" t="e"><f>NA()</f><v>#N/A</v></c>');
    expect(xml).toContain('<c r="A3" t="str"><f>"#N/A"</f><v>#N/A</v></c>');
  });

  it('hides the names that are hidden, and no other', async () => {
    const xml = await part(computed, 'xl/workbook.xml');
    expect(xml.match(/<definedName [^>]*>/g)).toEqual([
      '<definedName name="Seen" localSheetId="0">',
      '<definedName hidden="1" name="LightSheet" localSheetId="0">',
    ]);
  });

  it('asks for calculation only when it holds no results', async () => {
    expect(await part(computed, 'xl/workbook.xml')).not.toContain('fullCalcOnLoad');
    expect(await part(computed, 'xl/workbook.xml', false)).toContain('fullCalcOnLoad="1"');
    const xml = await part(computed, 'xl/worksheets/sheet1.xml', false);
    expect(xml).not.toContain('<v>');
  });

  it('makes a note box as high as its text needs', async () => {
    const whole = bookWith({
      notes: [
        { at: 'B2', text: 'short' },
        { at: 'B9', text: 'long '.repeat(60) },
      ],
    });
    const vml = await part(whole, 'xl/drawings/vmlDrawing1.vml');
    expect(vml.match(/<x:Anchor>[^<]*/g)).toEqual([
      '<x:Anchor>2,15,1,2,6,31,4,4',
      '<x:Anchor>2,15,8,2,6,31,17,4',
    ]);
  });
});

describe('a file changed in place', () => {
  const withError = (error: ErrorKind): Book =>
    bookWith({ cells: { A1: { formula: '=NA()', value: { error } }, B1: { value: 1 } } });

  it.each<[ErrorKind, ErrorKind]>([
    ['#N/A', '#N/A'],
    // The file format has no name for it.
    ['#BUSY!', '#VALUE!'],
  ])('has the error it should have: %s', async (wanted, told) => {
    const bytes = await writeXlsx(withError('#NAME?'));
    const before = await readXlsx(bytes);
    const [sheet] = before.sheets;
    const cells = { ...sheet!.cells, A1: { ...sheet!.cells.A1!, value: { error: wanted } } };
    const after = await readXlsx(await rewriteXlsx(bytes, { ...before, sheets: [{ ...sheet!, cells }] }));
    expect(after.sheets[0]!.cells.A1!.value).toEqual({ error: told });
  });
});
