import { expect, test } from 'vitest';
import { createTestHost } from './client';
import { refusal } from './refusal';

test('several areas take a look together and read as what they share', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    const areas = sheet.getRanges('A1:B1,D3');
    areas.format.font.bold = true;
    areas.format.fill.color = '#ABCDEF';
    areas.load('address,areaCount,cellCount');
    areas.format.font.load('bold');
    await context.sync();
    sheet.getRange('D3').format.fill.color = '#000000';
    areas.format.fill.load('color');
    await context.sync();
    return [areas.address, areas.areaCount, areas.cellCount, areas.format.font.bold, areas.format.fill.color];
  });
  expect(read).toEqual(['Sheet1!A1:B1,Sheet1!D3', 2, 3, true, null]);
});

test('looks of single cells are set in one call', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1:B1').setCellProperties([
      [
        {
          format: {
            fill: { color: '#FFF8E6' },
            font: { bold: true, size: 12 },
            protection: { locked: false },
            horizontalAlignment: 'Center',
            borders: {
              top: { style: 'Continuous', color: '#112233', weight: 'Medium' },
              bottom: { style: 'Continuous', color: '#445566', weight: 'Thin' },
            },
          },
        },
        {},
      ],
    ] as never);
    sheet.getRange('A1:B1').setColumnProperties([{ columnWidth: 60 }, {}] as never);
    const { format } = sheet.getRange('A1');
    format.load('horizontalAlignment,columnWidth,fill/color,font/bold,font/size,protection/locked');
    const edges = ['EdgeTop', 'EdgeBottom'].map((edge) =>
      format.borders.getItem(edge as 'EdgeTop').load('color,weight'),
    );
    const plain = sheet.getRange('B1').format.fill.load('color');
    await context.sync();
    return [format.toJSON(), edges.map((edge) => [edge.color, edge.weight]), plain.color];
  });
  expect(read).toMatchObject([
    {
      horizontalAlignment: 'Center',
      columnWidth: 60,
      fill: { color: '#FFF8E6' },
      font: { bold: true, size: 12 },
      protection: { locked: false },
    },
    [
      ['#112233', 'Medium'],
      ['#445566', 'Thin'],
    ],
    '#FFFFFF',
  ]);
});

test('a look the workbench does not have is refused by its name', async () => {
  const { run } = createTestHost();
  const error = await refusal(() =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A1').format.textOrientation = 90;
      await context.sync();
    }),
  );
  expect(error.message).toContain('RangeFormat.textOrientation');
});
