import { expect, test } from 'vitest';
import { createTestHost } from './client';
import { refusal } from './refusal';

test('a sheet is added, written and read in one batch', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.add('Run 1');
    const range = sheet.getRange('B2:C3');
    range.values = [
      [1, 2],
      [3, '=SUM(B2:B3)'],
    ];
    range.load('values,formulas,address');
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

test('the collection lists sheets in tab order, and a handle outlives the batch', async () => {
  const { run } = createTestHost();
  const names = await run(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.add('B');
    const a = worksheets.add('A');
    a.position = 0;
    worksheets.load('items/name');
    await context.sync();
    const before = worksheets.items.map((sheet) => sheet.name);
    worksheets.items[0]!.name = 'Renamed';
    await context.sync();
    a.load('name');
    await context.sync();
    return [...before, a.name];
  });
  expect(names).toEqual(['A', 'Sheet1', 'B', 'Renamed']);
});

// Codes: "Error handling with the application-specific JavaScript APIs", Office Add-ins documentation.
test('a taken name, a forbidden name and a missing sheet are refused as in Excel', async () => {
  const { run } = createTestHost();
  await run((context) => {
    context.workbook.worksheets.add('Run');
    return context.sync();
  });
  const add = (name: string) =>
    refusal(() =>
      run(async (context) => {
        context.workbook.worksheets.add(name);
        await context.sync();
      }),
    );
  expect(await add('RUN')).toMatchObject({ code: 'ItemAlreadyExists' });
  expect(await add('x'.repeat(32))).toMatchObject({ code: 'InvalidArgument' });
  expect(await add('a/b')).toMatchObject({ code: 'InvalidArgument' });
  const missing = await refusal(() =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Nowhere').load('name');
      await context.sync();
    }),
  );
  expect(missing).toMatchObject({ code: 'ItemNotFound' });
  expect(missing.debugInfo.statement).toContain('worksheets.getItem');
});

test('what was done before the failing action stays, what comes after is not tried', async () => {
  const { run } = createTestHost();
  await refusal(() =>
    run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.add('Before');
      worksheets.getItem('Nowhere').delete();
      worksheets.add('After');
      await context.sync();
    }),
  );
  const found = await run(async (context) => {
    const before = context.workbook.worksheets.getItemOrNullObject('Before');
    const after = context.workbook.worksheets.getItemOrNullObject('After');
    await context.sync();
    return [before.isNullObject, after.isNullObject];
  });
  expect(found).toEqual([false, true]);
});

test('reading what was not loaded is refused by the client itself', async () => {
  const { run } = createTestHost();
  const error = await refusal(() =>
    run(async (context) => {
      const sheet = context.workbook.worksheets.getActiveWorksheet();
      await context.sync();
      return sheet.name;
    }),
  );
  expect(error.code).toBe('PropertyNotLoaded');
});

test('what the workbench does not have fails by its name', async () => {
  const { run } = createTestHost();
  const error = await refusal(() =>
    run(async (context) => {
      context.workbook.worksheets.getActiveWorksheet().charts.load('items');
      await context.sync();
    }),
  );
  expect(error).toMatchObject({ code: 'ApiNotAvailable' });
  expect(error.message).toContain('Worksheet.charts');
});

test('the last visible sheet cannot be deleted, another can', async () => {
  const { run } = createTestHost();
  const last = await refusal(() =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').delete();
      await context.sync();
    }),
  );
  expect(last.code).toBe('InvalidOperation');
  const left = await run(async (context) => {
    context.workbook.worksheets.add('Other');
    context.workbook.worksheets.getItem('Sheet1').delete();
    const count = context.workbook.worksheets.getCount();
    await context.sync();
    return count.value;
  });
  expect(left).toBe(1);
});

test('a renamed sheet takes its references along', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const source = context.workbook.worksheets.getItem('Sheet1');
    source.getRange('A1').values = [[7]];
    const reader = context.workbook.worksheets.add('Reader');
    const cell = reader.getRange('A1');
    cell.formulas = [['=Sheet1!A1*2']];
    await context.sync();
    source.name = 'Source 1';
    source.getRange('A1').values = [[8]];
    cell.load('formulas,values');
    await context.sync();
    return [cell.formulas[0]![0], cell.values[0]![0]];
  });
  expect(read).toEqual(["='Source 1'!A1*2", 16]);
});
