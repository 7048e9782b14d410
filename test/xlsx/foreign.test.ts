import ExcelJS from 'exceljs';
import { strToU8, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Book, BookSheet } from '../../src/sheets/book';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { readForeign } from '../tools/foreign';
import { convert, recalculate } from '../tools/libreoffice';
import { bookWith, measuringSheet } from './sample';

const SLOW = 120_000;
const OURS: Book = { sheets: [measuringSheet('Run 1'), measuringSheet("Anna's, run 2")], names: [] };

describe('our file, read by ExcelJS', () => {
  let workbook: ExcelJS.Workbook;
  let sheet: ExcelJS.Worksheet;
  beforeAll(async () => {
    workbook = new ExcelJS.Workbook();
    await workbook.xlsx.load(Buffer.from(await writeXlsx(OURS)) as unknown as ExcelJS.Buffer);
    sheet = workbook.getWorksheet("Anna's, run 2")!;
  });

  it('has the same values and, as stored, the same formulas', async () => {
    const seen = await readForeign(await writeXlsx(OURS));
    for (const [at, { cells }] of OURS.sheets.entries()) {
      const other = seen.sheets[at]!.cells;
      for (const [address, { value, formula }] of Object.entries(cells)) {
        if (value !== null) expect(other[address]?.value, address).toEqual(value);
        const stored = formula?.replace('LIGHT.OUTPUT', '_xldudf_LIGHT_OUTPUT');
        expect(other[address]?.formula, address).toBe(stored);
      }
    }
  });

  it('has the same input rules with their words', () => {
    const rule = sheet.getCell('C10').dataValidation;
    expect(rule).toMatchObject({
      type: 'decimal',
      operator: 'between',
      formulae: [0, 200_000],
      allowBlank: true,
      showInputMessage: true,
      showErrorMessage: true,
      promptTitle: 'White',
      error: 'Type a number from 0 to 200 000.',
      errorStyle: 'stop',
    });
    expect(sheet.getCell('B5').dataValidation).toMatchObject({ errorStyle: 'warning', formulae: [0.1] });
  });

  it('has the same locks, looks and layout', () => {
    expect(sheet.getCell('B9').protection).toMatchObject({ locked: false });
    expect(sheet.getCell('B14').protection?.locked ?? true).toBe(true);
    expect(sheet.getCell('B9').numFmt).toBe('#,##0.0');
    expect(sheet.getCell('B14').font.bold).toBe(true);
    expect(sheet.getCell('B14').border.bottom?.style).toBe('medium');
    expect(sheet.getCell('B5').fill).toMatchObject({ pattern: 'solid', fgColor: { argb: 'FFFFF8E6' } });
    expect(sheet.getColumn('A').width).toBe(24);
    expect(sheet.getRow(16).height).toBe(32);
    expect(sheet.getCell('B1').isMerged).toBe(true);
    expect(sheet.getCell('B9').note).toBe('Top left as seen from the audience.');
    expect(sheet.views[0]).toMatchObject({ state: 'frozen', ySplit: 1, showGridLines: false });
    expect(sheet.pageSetup).toMatchObject({ fitToPage: true, fitToWidth: 1, fitToHeight: 1, paperSize: 9 });
    expect(sheet.pageSetup.printArea).toBe('A1:D16');
  });

  it('has its conditional formats and its protection', () => {
    const model = sheet.model as unknown as {
      conditionalFormattings: { ref: string; rules: { type: string }[] }[];
      sheetProtection: { sheet: boolean };
    };
    expect(model.conditionalFormattings.map(({ ref, rules }) => [ref, rules[0]!.type])).toEqual([
      ['A15', 'beginsWith'],
      ['B9:D11', 'colorScale'],
    ]);
    expect(model.sheetProtection.sheet).toBe(true);
  });
});

describe('our file, saved again by LibreOffice', () => {
  let saved: Book;
  let sheet: BookSheet;
  beforeAll(async () => {
    const [file] = await convert([await writeXlsx(OURS)], 'xlsx');
    saved = await readXlsx(file!);
    sheet = saved.sheets[1]!;
  }, SLOW);

  it('keeps two sheet-scoped names of one name apart, and what a sheet is', () => {
    const names = saved.sheets.map((one) => one.names.find(({ name }) => name === 'WhiteReadings')?.refersTo);
    expect(names).toEqual(["='Run 1'!$B$9:$D$11", "='Anna''s, run 2'!$B$9:$D$11"]);
    // LibreOffice 7.4 itself loses that the name is hidden.
    expect(sheet.names.find(({ name }) => name === 'LightSheet')?.refersTo).toBe('="run;1;k3f9a2"');
  });

  // Not gridlines and freeze: without a window, LibreOffice saves no view settings. ExcelJS sees them above.
  it('keeps what a person sees and may do', () => {
    const before = OURS.sheets[1]!;
    expect(sheet.validations.map(({ range }) => range).sort()).toEqual(['B5:B6', 'B9:D11']);
    expect(sheet.validations.find(({ range }) => range === 'B9:D11')).toEqual(before.validations[0]);
    expect(sheet.scales).toEqual(before.scales);
    expect(sheet.alerts).toEqual(before.alerts);
    expect(sheet.notes).toEqual(before.notes);
    expect([...sheet.merges].sort()).toEqual([...before.merges].sort());
    expect(sheet.print).toEqual(before.print);
    expect(sheet.isProtected).toBe(true);
    expect(sheet.cells.B9!.style).toMatchObject({ locked: false, format: '#,##0.0' });
    expect(sheet.cells.B4!.value).toBe('=North wing, room 2');
  });

  it('computes the plain twin from the names of its own sheet', () => {
    // 3.6 m² times the mean of nine readings: 2085.6111… lx.
    for (const one of saved.sheets) expect(one.cells.D14!.value).toBeCloseTo((18770.5 / 9) * 3.6, 9);
    expect(sheet.cells.B14!.value).toEqual({ error: '#NAME?' });
  });

  it('prints on one page a sheet', { timeout: SLOW }, async () => {
    const [pdf] = await convert([await writeXlsx(OURS)], 'pdf');
    const pages = Buffer.from(pdf!)
      .toString('latin1')
      .match(/\/Type\s*\/Page\b/g);
    expect(pages).toHaveLength(2);
  });
});

describe('files of other programs', () => {
  it('a file of ExcelJS: shared formulas are written out, names and rules come through', async () => {
    const workbook = new ExcelJS.Workbook();
    const sheet = workbook.addWorksheet('Data');
    sheet.getCell('A1').value = 1;
    sheet.getCell('A2').value = 2;
    sheet.fillFormula('B1:B2', 'A1*$A$1', [1, 2]);
    sheet.getCell('C1').value = new Date(Date.UTC(2026, 10, 25));
    sheet.getCell('D1').value = { richText: [{ text: 'bold', font: { bold: true } }, { text: ' and not' }] };
    sheet.getCell('E1').value = { error: '#N/A' };
    sheet.getCell('A1').dataValidation = { type: 'list', formulae: ['"lx,fc"'], allowBlank: true };
    workbook.definedNames.add('Data!$A$1:$A$2', 'Readings');
    const { sheets, names } = await readXlsx(new Uint8Array(await workbook.xlsx.writeBuffer()));
    const { cells, validations } = sheets[0]!;
    expect(cells.B1).toMatchObject({ value: 1, formula: '=A1*$A$1' });
    expect(cells.B2).toMatchObject({ value: 2, formula: '=A2*$A$1' });
    // 25 November 2026 is day 46351 of the spreadsheet calendar (DATE(2026,11,25) in LibreOffice).
    expect(cells.C1!.value).toBe(46351);
    expect(cells.D1!.value).toBe('bold and not');
    expect(cells.E1!.value).toEqual({ error: '#N/A' });
    expect(validations[0]!.rule).toEqual({ type: 'list', choices: ['lx', 'fc'] });
    expect(names).toEqual([{ name: 'Readings', refersTo: '=Data!$A$1:$A$2' }]);
  });

  it('a file shaped like those of Excel: days from 1904, theme colours, a chart sheet, default column widths', async () => {
    const { sheets, active, names } = await readXlsx(EXCEL_SHAPED);
    expect(sheets.map(({ name }) => name)).toEqual(['Run']);
    expect(active).toBe('Run');
    const [run] = sheets;
    // The same day is 1462 days less in the 1904 calendar (ECMA-376-1, 18.17.4.1).
    expect(run!.cells.A1!.value).toBe(46351.25);
    expect(run!.cells.B1!.style).toEqual({ fill: '#FFFFFF' });
    expect(run!.columns).toEqual({ A: 20 });
    expect(run!.names).toEqual([{ name: 'Own', refersTo: '=Run!$A$1' }]);
    expect(names).toEqual([]);
  });

  it('results of a file without cached values are there after recalculation', { timeout: SLOW }, async () => {
    const whole = bookWith({ cells: { A1: { value: 2 }, A2: { value: 0, formula: '=A1^10' } } });
    const [computed] = await recalculate([await writeXlsx(whole, { cachedValues: false })]);
    expect(computed!.sheets[0]!.cells.A2!.value).toBe(1024);
  });
});

const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const REL = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'xmlns="http://schemas.openxmlformats.org/package/2006/relationships"';
const THEME_COLOURS = 'dk1 lt1 dk2 lt2 accent1 accent2 accent3 accent4 accent5 accent6 hlink folHlink'
  .split(' ')
  .map((name) => `<a:${name}><a:srgbClr val="${name === 'lt1' ? 'FFFFFF' : '000000'}"/></a:${name}>`)
  .join('');

const EXCEL_SHAPED = zipSync(
  Object.fromEntries(
    Object.entries({
      '[Content_Types].xml': '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
      '_rels/.rels': `<Relationships ${PACKAGE}><Relationship Id="rId1" Type="${REL}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
      'xl/workbook.xml': `<workbook ${MAIN} xmlns:r="${REL}"><workbookPr date1904="1"/><bookViews><workbookView activeTab="1"/></bookViews><sheets><sheet name="Chart" sheetId="1" r:id="rId1"/><sheet name="Run" sheetId="2" r:id="rId2"/></sheets><definedNames><definedName name="_xlnm._FilterDatabase" localSheetId="1" hidden="1">Run!$A$1:$B$1</definedName><definedName name="Own" localSheetId="1">Run!$A$1</definedName></definedNames></workbook>`,
      'xl/_rels/workbook.xml.rels': `<Relationships ${PACKAGE}><Relationship Id="rId1" Type="${REL}/chartsheet" Target="chartsheets/sheet1.xml"/><Relationship Id="rId2" Type="${REL}/worksheet" Target="/xl/worksheets/sheet1.xml"/><Relationship Id="rId3" Type="${REL}/styles" Target="styles.xml"/><Relationship Id="rId4" Type="${REL}/theme" Target="theme/theme1.xml"/></Relationships>`,
      'xl/chartsheets/sheet1.xml': `<chartsheet ${MAIN}/>`,
      'xl/theme/theme1.xml': `<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:themeElements><a:clrScheme name="x">${THEME_COLOURS}</a:clrScheme></a:themeElements></a:theme>`,
      'xl/styles.xml': `<styleSheet ${MAIN}><fonts count="1"><font><sz val="11"/><color theme="1"/><name val="Calibri"/></font></fonts><fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor theme="0"/></patternFill></fill></fills><borders count="1"><border/></borders><cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="14" fontId="0" fillId="0" borderId="0" applyNumberFormat="1"/><xf numFmtId="0" fontId="0" fillId="2" borderId="0" applyFill="1"/></cellXfs></styleSheet>`,
      'xl/worksheets/sheet1.xml': `<worksheet ${MAIN}><cols><col min="1" max="1" width="20" customWidth="1"/><col min="2" max="16384" width="9.14"/></cols><sheetData><row r="1"><c r="A1" s="1"><v>44889.25</v></c><c r="B1" s="2"/></row></sheetData></worksheet>`,
    }).map(([path, xml]) => [path, strToU8(`<?xml version="1.0" encoding="UTF-8"?>${xml}`)]),
  ),
);
