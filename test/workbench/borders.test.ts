import { expect, test } from 'vitest';
import { createTestHost } from './client';

test('a line inside a range belongs to the cells on both of its sides', async () => {
  const { run } = createTestHost();
  const drawn = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    for (const edge of [
      'EdgeTop',
      'EdgeBottom',
      'EdgeLeft',
      'EdgeRight',
      'InsideHorizontal',
      'InsideVertical',
    ] as const)
      sheet.getRange('B2:D4').format.borders.getItem(edge).style = 'Continuous';
    const lines = ['B2', 'C3', 'D4', 'E3'].map((at) =>
      (['EdgeTop', 'EdgeBottom', 'EdgeLeft', 'EdgeRight'] as const).map((edge) => {
        const line = sheet.getRange(at).format.borders.getItem(edge);
        line.load('style');
        return line;
      }),
    );
    await context.sync();
    return lines.map((sides) => sides.map(({ style }) => style));
  });
  const box = Array(4).fill('Continuous');
  expect(drawn).toEqual([box, box, box, Array(4).fill('None')]);
});
