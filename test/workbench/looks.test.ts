import { expect, test } from 'vitest';
import { createTestHost } from './client';
import { refusal } from './refusal';

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

test('a look is set on a cell in one go: what is left out stays, a side of a frame is its own', async () => {
  const { run } = createTestHost();
  const look = await run(async (context) => {
    const cell = context.workbook.worksheets.getItem('Sheet1').getRange('B2');
    cell.format.font.italic = true;
    cell.setCellProperties([
      [
        {
          format: {
            font: { name: 'Calibri', size: 12, bold: true, color: '#1F2933' },
            fill: { color: '#FFF8E6' },
            horizontalAlignment: 'Center',
            wrapText: true,
            protection: { locked: false },
            borders: { bottom: { style: 'Continuous', color: '#7B8794', weight: 'Medium' } },
          },
        },
      ],
    ]);
    const { format } = cell;
    const [bottom, top] = ['EdgeBottom', 'EdgeTop'].map((edge) =>
      format.borders.getItem(edge as 'EdgeTop').load('style,color,weight'),
    );
    format.load('horizontalAlignment,verticalAlignment,wrapText');
    format.font.load('name,size,bold,italic,color');
    format.fill.load('color');
    format.protection.load('locked');
    await context.sync();
    return {
      ...format.toJSON(),
      bottom: [bottom!.style, bottom!.color, bottom!.weight],
      top: top!.style,
    };
  });
  expect(look).toMatchObject({
    font: { name: 'Calibri', size: 12, bold: true, italic: true, color: '#1F2933' },
    fill: { color: '#FFF8E6' },
    horizontalAlignment: 'Center',
    verticalAlignment: 'Bottom',
    wrapText: true,
    protection: { locked: false },
    bottom: ['Continuous', '#7B8794', 'Medium'],
    top: 'None',
  });
});

test.each([
  ['nothing at all', [[null]]],
  ['a look for two cells', [[{}, {}]]],
  ['a look that the workbench does not have', [[{ format: { textOrientation: 90 } }]]],
  ['a diagonal', [[{ format: { borders: { diagonalUp: { style: 'Continuous' } } } }]]],
])('%s is refused', async (_, properties) => {
  const { run } = createTestHost();
  const error = await refusal(() =>
    run(async (context) => {
      const cell = context.workbook.worksheets.getItem('Sheet1').getRange('A1');
      cell.setCellProperties(properties as Excel.SettableCellProperties[][]);
      await context.sync();
    }),
  );
  expect(['InvalidArgument', 'ApiNotAvailable']).toContain(error.code);
});
