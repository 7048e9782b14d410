import { expect, test } from 'vitest';
import { createTestHost } from './client';
import { refusal } from './refusal';

test('text, numbers, dates and truth values are read as Excel reads them', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:A10');
    range.values = [
      ['12'],
      ['12%'],
      ["'12"],
      ["'=1+1"],
      ['=1+1'],
      [true],
      ['2026-11-25'],
      ['-x'],
      [''],
      ['#N/A'],
    ];
    range.load('values,valueTypes,formulas,numberFormat,text');
    await context.sync();
    return range.values.map((line, row) => [
      line[0],
      range.valueTypes[row]![0],
      range.formulas[row]![0],
      range.numberFormat[row]![0],
      range.text[row]![0],
    ]);
  });
  // 46351: days since 1899-12-30, counted with the date functions of the numfmt library (ECMA-376 date system).
  expect(read).toEqual([
    [12, 'Double', 12, 'General', '12'],
    [0.12, 'Double', 0.12, '0%', '12%'],
    ['12', 'String', '12', 'General', '12'],
    ['=1+1', 'String', '=1+1', 'General', '=1+1'],
    [2, 'Double', '=1+1', 'General', '2'],
    [true, 'Boolean', true, 'General', 'TRUE'],
    [46351, 'Double', 46351, 'yyyy-mm-dd', '2026-11-25'],
    ['#NAME?', 'Error', '=-x', 'General', '#NAME?'],
    ['', 'Empty', '', 'General', ''],
    ['#N/A', 'Error', '#N/A', 'General', '#N/A'],
  ]);
});

test('format "@" keeps text, null leaves a cell alone, one value fills a range', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:B2');
    range.numberFormat = [
      ['@', '0.0'],
      ['General', 'General'],
    ];
    range.values = 7 as never;
    range.values = [
      ['=1', null],
      [null, 9],
    ] as never;
    range.load('values,text');
    await context.sync();
    return [range.values, range.text];
  });
  expect(read).toEqual([
    [
      ['=1', 7],
      [7, 9],
    ],
    [
      ['=1', '7.0'],
      ['7', '9'],
    ],
  ]);
});

test('a wrong shape, a broken formula and a wrong address are InvalidArgument', async () => {
  const { run } = createTestHost();
  const write = (address: string, values: unknown[][]) =>
    refusal(() =>
      run(async (context) => {
        context.workbook.worksheets.getItem('Sheet1').getRange(address).values = values;
        await context.sync();
      }),
    );
  expect(await write('A1:B2', [[1, 2]])).toMatchObject({ code: 'InvalidArgument' });
  expect(await write('A1', [['=SUM(1']])).toMatchObject({ code: 'InvalidArgument' });
  const address = await write('A0', [[1]]);
  expect(address).toMatchObject({ code: 'InvalidArgument' });
  expect(address.debugInfo.errorLocation).toBe('Worksheet.getRange');
});

test('looks are set and read: font, fill, borders, alignment, widths, merges, freeze', async () => {
  const { run, engine } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    const range = sheet.getRange('B2:C3');
    const { format } = range;
    format.font.bold = true;
    format.font.color = '#1f2933';
    format.font.size = 12;
    format.fill.color = '#FFF8E6';
    format.horizontalAlignment = 'Center';
    format.wrapText = true;
    const edge = format.borders.getItem('EdgeBottom');
    edge.style = 'Continuous';
    edge.weight = 'Medium';
    edge.color = '#7B8794';
    format.columnWidth = 60;
    format.rowHeight = 30;
    sheet.getRange('A1:D1').merge();
    sheet.freezePanes.freezeRows(1);
    sheet.showGridlines = false;
    format.load(
      'horizontalAlignment,wrapText,columnWidth,rowHeight,font/bold,font/color,font/size,fill/color',
    );
    edge.load('style,weight,color');
    const mixed = sheet.getRange('A2:B2').format.font.load('bold');
    sheet.load('showGridlines');
    await context.sync();
    return { format: format.toJSON(), edge: edge.toJSON(), mixed: mixed.bold, grid: sheet.showGridlines };
  });
  expect(read).toMatchObject({
    format: {
      horizontalAlignment: 'Center',
      wrapText: true,
      columnWidth: 60,
      rowHeight: 30,
      font: { bold: true, color: '#1F2933', size: 12 },
      fill: { color: '#FFF8E6' },
    },
    edge: { style: 'Continuous', weight: 'Medium', color: '#7B8794' },
    mixed: null,
    grid: false,
  });
  // The same in the engine a person looks at.
  const shown = engine.activeSheet.shown;
  expect(shown.getRange('B2').getBackground().toUpperCase()).toBe('#FFF8E6');
  expect(shown.getColumnWidth(1)).toBe(80);
  expect(shown.getFrozenRows()).toBe(1);
  expect(shown.getMergedRanges().map((range) => range.getA1Notation())).toEqual(['A1:D1']);
});

test('ranges move and grow', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('C3:D5').values = 1 as never;
    const base = sheet.getRange('C3:D5');
    const ranges = [
      base.getCell(1, 1),
      base.getOffsetRange(1, -1),
      base.getResizedRange(1, 0),
      sheet.getUsedRange(),
      sheet.getRangeByIndexes(0, 0, 2, 2),
    ].map((range) => range.load('address'));
    await context.sync();
    return ranges.map(({ address }) => address);
  });
  expect(read).toEqual(['Sheet1!D4', 'Sheet1!B4:C6', 'Sheet1!C3:D6', 'Sheet1!C3:D5', 'Sheet1!A1:B2']);
});

// Known limit of the embedded engine: see "Running without Excel" in the design notes of this project.
test('the engine rounds what is within 1e-10 of a shorter number; only 12 digits count', async () => {
  const { run } = createTestHost();
  const [third, zero] = await run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:B1');
    range.formulas = [['=1/3', '=0.1+0.2-0.3']];
    range.load('values');
    await context.sync();
    return range.values[0]!;
  });
  expect(Math.abs(third * 3 - 1)).toBeLessThan(1e-11);
  expect(zero).toBe(0);
});

test('two workbooks of one process keep equal formulas apart', async () => {
  const sums: unknown[] = [];
  for (const values of [
    [[1], [2]],
    [[10], [20]],
  ]) {
    const { run } = createTestHost();
    await run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('B2:B3').values = values;
      sheet.getRange('E1').formulas = [['=IF(ISERROR(B2),0,SUM(B2:B3))']];
      await context.sync();
      const sum = sheet.getRange('E1').load('values');
      await context.sync();
      sums.push(sum.values[0]![0]);
    });
  }
  expect(sums).toEqual([3, 30]);
});
