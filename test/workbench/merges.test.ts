import { expect, test } from 'vitest';
import { addressOf } from '../../src/sheets/address';
import { createTestHost } from './client';

/** Reference of `Range.merge`: only the upper-left content of a merged area stays. */
test('a formula written before a merge and a look in the same batch is calculated', async () => {
  const { run } = createTestHost();
  const values = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    const cell = sheet.getRange('A1');
    cell.formulas = [['=1+2']];
    sheet.getRange('A2:L2').merge(false);
    cell.format.font.color = '#123456';
    cell.load('values');
    await context.sync();
    return cell.values;
  });
  expect(values).toEqual([[3]]);
});

test.each([
  [
    false,
    [
      [1, ''],
      ['', ''],
    ],
    ['A1:B2'],
  ],
  [
    true,
    [
      [1, ''],
      [3, ''],
    ],
    ['A1:B1', 'A2:B2'],
  ],
])('merging (by rows: %s) keeps the first content of each area', async (across, kept, merged) => {
  const { run, engine } = createTestHost();
  const values = await run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:B2');
    range.values = [
      [1, 2],
      [3, 4],
    ];
    range.merge(across);
    range.load('values');
    await context.sync();
    return range.values;
  });
  expect(values).toEqual(kept);
  expect((await merges(engine)).sort()).toEqual(merged);
});

test('a merge takes in those it covers, and unmerging frees all that it touches', async () => {
  const { run, engine } = createTestHost();
  await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('B2:C2').merge(false);
    sheet.getRange('A1:D4').merge(false);
    await context.sync();
  });
  expect(await merges(engine)).toEqual(['A1:D4']);
  await run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('D4').unmerge();
    await context.sync();
  });
  expect(await merges(engine)).toEqual([]);
});

async function merges(engine: ReturnType<typeof createTestHost>['engine']): Promise<string[]> {
  await engine.calculation.settled();
  return engine.requireSheet('Sheet1').merges().map(addressOf);
}
