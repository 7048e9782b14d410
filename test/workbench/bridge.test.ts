import { expect, test } from 'vitest';
import { createTestHost } from './client';

test('a sheet is added, written and read through the real client', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.add('Run 1');
    const range = sheet.getRange('B2:C3');
    range.values = [
      [1, 2],
      [3, '=SUM(B2:B3)'],
    ];
    range.load('values,formulas,address,valueTypes,text');
    sheet.load('name,position');
    await context.sync();
    return { ...range.toJSON(), sheet: sheet.name, position: sheet.position };
  });
  expect(read).toMatchObject({
    address: "'Run 1'!B2:C3",
    values: [
      [1, 2],
      [3, 4],
    ],
    formulas: [
      [1, 2],
      [3, '=SUM(B2:B3)'],
    ],
    sheet: 'Run 1',
    position: 1,
  });
});
