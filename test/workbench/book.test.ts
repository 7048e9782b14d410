import { expect, test } from 'vitest';
import type { Book, BookSheet } from '../../src/sheets/book';
import { createTestHost } from './client';

function sheet(name: string, readings: readonly number[]): BookSheet {
  const quoted = `'${name}'`;
  return {
    name,
    visibility: 'visible',
    cells: {
      A1: { value: 'Light output', style: { size: 16, bold: true, color: '#1F2933', vertical: 'center' } },
      A2: { value: '=1+1' },
      A3: { value: '0012' },
      A4: { value: true },
      B2: {
        value: readings[0]!,
        style: {
          format: '0.0',
          fill: '#FFF8E6',
          align: 'center',
          border: { color: '#7B8794', weight: 'thin', sides: 'box' },
          locked: false,
        },
      },
      B3: { value: readings[1]!, style: { locked: false } },
      B4: { value: null, style: { locked: false } },
      D2: {
        value: readings[0]! + readings[1]!,
        formula: '=SUM(WhiteReadings)',
        style: { bold: true, border: { color: '#1F2933', weight: 'medium', sides: 'bottom' } },
      },
      D3: { value: 2, formula: '=COUNT(WhiteReadings)', style: { italic: true, wrap: true } },
      F2: { value: readings[0]!, formula: '=TRANSPOSE(B2:B3)', spill: 'F2:G2', style: { format: '0' } },
      G2: { value: readings[1]! },
    },
    names: [
      { name: 'LightSheet', refersTo: '="run;1;a1b2"', hidden: true },
      { name: 'WhiteReadings', refersTo: `=${quoted}!$B$2:$B$4`, comment: 'white, lx' },
    ],
    validations: [
      {
        range: 'B2:B4',
        rule: { type: 'number', min: 0, max: 200_000 },
        prompt: { title: 'Illuminance', message: 'in lx' },
        refusal: { title: 'Illuminance', message: '0 to 200 000 lx', style: 'stop' },
      },
      {
        range: 'C2',
        rule: { type: 'list', choices: ['lx', 'fc'] },
        prompt: { title: 'Unit', message: '' },
        refusal: { title: 'Unit', message: 'lx or fc', style: 'warning' },
      },
    ],
    scales: [{ range: 'B2:B4', low: '#DCE6F2', middle: '#FFFFFF', high: '#FBE3B5' }],
    alerts: [{ range: 'D2:D3', begins: 'Missing', fill: '#FDECEA', color: '#7A1F1F' }],
    notes: [{ at: 'B2', text: 'top left, as seen facing the screen' }],
    merges: ['A1:D1'],
    columns: { A: 22, B: 9.5 },
    rows: { '1': 24 },
    isProtected: true,
    freeze: { rows: 1, columns: 0 },
    gridlines: false,
    print: {
      area: 'A1:G4',
      orientation: 'landscape',
      wide: 1,
      tall: 0,
      breaks: [3],
      columnBreaks: ['D'],
      titleColumns: 'A:B',
    },
  };
}
const BOOK: Book = {
  sheets: [sheet('Run 1', [1, 2]), sheet('Run 2', [10, 20])],
  names: [{ name: 'Site', refersTo: '="an invented reading room"' }],
  active: 'Run 2',
};

test('a book goes in and comes out the same', async () => {
  const { workbench } = createTestHost();
  await workbench.fromBook(BOOK);
  const out = await workbench.toBook();
  expect(out).toEqual(BOOK);
});

test('a book replaces what was there, twice over', async () => {
  const { workbench } = createTestHost();
  await workbench.fromBook(BOOK);
  await workbench.fromBook(await workbench.toBook());
  const out = await workbench.toBook();
  expect(out.sheets.map(({ name }) => name)).toEqual(['Run 1', 'Run 2']);
  expect(out.sheets.map(({ cells }) => cells.D2)).toMatchObject([
    { value: 3, formula: '=SUM(WhiteReadings)' },
    { value: 30, formula: '=SUM(WhiteReadings)' },
  ]);
});

test('what is in a book is what the client sees', async () => {
  const { run, workbench } = createTestHost();
  await workbench.fromBook(BOOK);
  const seen = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Run 1');
    const text = sheet.getRange('A2:A3').load('values,valueTypes');
    const reading = sheet.getRange('B2');
    reading.load('text');
    reading.format.protection.load('locked');
    reading.dataValidation.load('rule,prompt');
    sheet.protection.load('protected');
    sheet.pageLayout.load('orientation,zoom');
    sheet.names.getItem('LightSheet').load('value');
    const column = sheet.getRange('A1').format.load('columnWidth');
    await context.sync();
    return {
      text: text.values.flat(),
      types: text.valueTypes.flat(),
      reading: reading.text[0]![0],
      locked: reading.format.protection.locked,
      rule: reading.dataValidation.rule,
      isProtected: sheet.protection.protected,
      orientation: sheet.pageLayout.orientation,
      zoom: sheet.pageLayout.zoom,
      width: column.columnWidth,
    };
  });
  expect(seen).toEqual({
    text: ['=1+1', '0012'],
    types: ['String', 'String'],
    reading: '1.0',
    locked: false,
    rule: { decimal: { formula1: '=0', formula2: '=200000', operator: 'Between' } },
    isProtected: true,
    orientation: 'Landscape',
    zoom: { horizontalFitToPages: 1 },
    // 22 characters of 7 px and 5 px around them (ECMA-376 18.3.1.13) are 159 px of 0.75 pt.
    width: 119.25,
  });
});

test('what the client builds comes out as a book', async () => {
  const { run, workbench } = createTestHost();
  await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    const grid = sheet.getRange('B2:D4');
    const scale = grid.conditionalFormats.add('ColorScale').colorScale;
    scale.criteria = {
      minimum: { type: 'LowestValue', color: '#DCE6F2' },
      maximum: { type: 'HighestValue', color: '#FBE3B5' },
    };
    const alert = sheet.getRange('F2').conditionalFormats.add('ContainsText').textComparison;
    alert.rule = { operator: 'BeginsWith', text: 'Missing' };
    alert.format.fill.color = '#FDECEA';
    alert.format.font.color = '#7A1F1F';
    sheet.pageLayout.setPrintArea(sheet.getRange('A1:F9'));
    sheet.pageLayout.orientation = 'Landscape';
    sheet.pageLayout.zoom = { horizontalFitToPages: 1, verticalFitToPages: 1 };
    sheet.pageLayout.headersFooters.defaultForAllPages.centerFooter = '&P / &N';
    sheet.pageLayout.setPrintTitleColumns('A:B');
    sheet.pageLayout.setPrintMargins('Inches', { left: 0.4, right: 0.4 });
    sheet.verticalPageBreaks.add('D1');
    for (const above of ['A7', 'A4', 'B8']) sheet.horizontalPageBreaks.add(above);
    sheet.horizontalPageBreaks.getItem(2).delete();
    sheet.visibility = 'Visible';
    await context.sync();
  });
  const [first] = (await workbench.toBook()).sheets;
  expect(first).toMatchObject({
    scales: [{ range: 'B2:D4', low: '#DCE6F2', high: '#FBE3B5' }],
    alerts: [{ range: 'F2', begins: 'Missing', fill: '#FDECEA', color: '#7A1F1F' }],
    print: {
      area: 'A1:F9',
      orientation: 'landscape',
      wide: 1,
      tall: 1,
      titleColumns: 'A:B',
      breaks: [4, 7],
      columnBreaks: ['D'],
    },
  });
});

test('a name that Excel would not allow is left out and said', async () => {
  const { workbench } = createTestHost();
  const names = [...BOOK.names, { name: 'B2', refersTo: '=1' }, { name: 'site', refersTo: '=2' }];
  expect(await workbench.fromBook({ ...BOOK, names })).toEqual([
    expect.stringContaining('"B2" was left out'),
    expect.stringContaining('"site" was left out'),
  ]);
  expect((await workbench.toBook()).names).toEqual(BOOK.names);
});
