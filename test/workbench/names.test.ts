import { expect, test } from 'vitest';
import { createTestHost } from './client';
import { refusal } from './refusal';

const QUALIFIED = "=SUM('Run 1'!WhiteReadings)";

/** "Run 1" with readings in B2:B4, their sheet-scoped name, and two formulas that use it. */
async function runSheet(run: ReturnType<typeof createTestHost>['run']): Promise<void> {
  await run(async (context) => {
    const sheet = context.workbook.worksheets.add('Run 1');
    sheet.getRange('B2:B4').values = [[1], [2], [3]];
    sheet.names.add('WhiteReadings', sheet.getRange('B2:B4'), 'white, lx');
    sheet.getRange('D2:D3').formulas = [['=SUM(WhiteReadings)'], [QUALIFIED]];
    await context.sync();
  });
}

test('two copies of one sheet keep their own data behind equal sheet-scoped names', async () => {
  const { run } = createTestHost();
  await runSheet(run);
  const read = async () =>
    run(async (context) => {
      const ranges = ['Run 1', 'Run 1 (2)'].map((name) =>
        context.workbook.worksheets.getItem(name).getRange('D2:D3').load('values,formulas'),
      );
      await context.sync();
      return ranges.map(({ values, formulas }) => [
        values[0]![0],
        formulas[0]![0],
        values[1]![0],
        formulas[1]![0],
      ]);
    });
  await run(async (context) => {
    context.workbook.worksheets.getItem('Run 1').copy('End');
    await context.sync();
  });
  expect(await read()).toEqual([
    [6, '=SUM(WhiteReadings)', 6, QUALIFIED],
    [6, '=SUM(WhiteReadings)', 6, QUALIFIED],
  ]);
  const edit = (sheet: string, value: number) =>
    run(async (context) => {
      context.workbook.worksheets.getItem(sheet).getRange('B2').values = [[value]];
      await context.sync();
    });
  await edit('Run 1 (2)', 100);
  expect(await read()).toEqual([
    [6, '=SUM(WhiteReadings)', 6, QUALIFIED],
    [105, '=SUM(WhiteReadings)', 6, QUALIFIED],
  ]);
  await edit('Run 1', 10);
  expect(await read()).toEqual([
    [15, '=SUM(WhiteReadings)', 15, QUALIFIED],
    [105, '=SUM(WhiteReadings)', 15, QUALIFIED],
  ]);
});

test('a copy has every name of the sheet as its own, pointing at itself', async () => {
  const { run } = createTestHost();
  await runSheet(run);
  const names = await run(async (context) => {
    const copy = context.workbook.worksheets
      .getItem('Run 1')
      .copy('After', context.workbook.worksheets.getItem('Run 1'));
    copy.load('name');
    copy.names.load('items/name,items/formula,items/scope,items/comment,items/type');
    await context.sync();
    return [copy.name, copy.names.items.map((item) => item.toJSON())];
  });
  expect(names).toEqual([
    'Run 1 (2)',
    [
      {
        name: 'WhiteReadings',
        formula: "='Run 1 (2)'!$B$2:$B$4",
        scope: 'Worksheet',
        comment: 'white, lx',
        type: 'Range',
      },
    ],
  ]);
});

test('names survive renaming their sheet, before and after an edit', async () => {
  const { run } = createTestHost();
  await runSheet(run);
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Run 1');
    sheet.name = 'Hall';
    sheet.getRange('B2').values = [[10]];
    const range = sheet.getRange('D2:D3').load('values,formulas');
    const name = sheet.names.getItem('whitereadings').load('formula');
    await context.sync();
    return [range.values.flat(), range.formulas.flat(), name.formula];
  });
  expect(read).toEqual([[15, 15], ['=SUM(WhiteReadings)', '=SUM(Hall!WhiteReadings)'], '=Hall!$B$2:$B$4']);
});

test('a formula may be written before the name it uses', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    const cell = sheet.getRange('A1');
    cell.formulas = [['=Later*2']];
    cell.load('values');
    await context.sync();
    const before = cell.values[0]![0];
    context.workbook.names.add('Later', '=21');
    cell.load('values,formulas');
    await context.sync();
    return [before, cell.values[0]![0], cell.formulas[0]![0]];
  });
  expect(read).toEqual(['#NAME?', 42, '=Later*2']);
});

test('a name given a new meaning, and one that uses it, are followed', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const { names } = context.workbook;
    const factor = names.add('Factor', '=2');
    names.add('Twice', '=Factor*10');
    const cell = context.workbook.worksheets.getItem('Sheet1').getRange('A1:A2');
    cell.formulas = [['=Factor'], ['=Twice+1']];
    cell.load('values');
    await context.sync();
    const before = cell.values.flat();
    factor.formula = '=3';
    cell.load('values,formulas');
    await context.sync();
    return [before, cell.values.flat(), cell.formulas.flat()];
  });
  expect(read).toEqual([
    [2, 21],
    [3, 31],
    ['=Factor', '=Twice+1'],
  ]);
});

test('a sheet name hides the workbook name of the same word on its sheet only', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const here = context.workbook.worksheets.getItem('Sheet1');
    const there = context.workbook.worksheets.add('There');
    context.workbook.names.add('Gain', '=1');
    here.getRange('A1').formulas = [['=Gain']];
    here.names.add('Gain', '=5');
    there.getRange('A1').formulas = [['=Gain+Sheet1!Gain']];
    const a = here.getRange('A1').load('values');
    const b = there.getRange('A1').load('values,formulas');
    await context.sync();
    return [a.values[0]![0], b.values[0]![0], b.formulas[0]![0]];
  });
  expect(read).toEqual([5, 6, '=Gain+Sheet1!Gain']);
});

test('constants, missing and taken names', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.names.add('LightSheet', '="run;1;a1b2"').visible = false;
    const shown = sheet.names.getItem('LightSheet').load('visible');
    await context.sync();
    // github.com/OfficeDev/office-js, issue 3878: it takes a message of its own.
    expect(shown.visible).toBe(true);
    const identity = sheet.names.getItem('LightSheet');
    identity.visible = false;
    identity.load('value,formula,visible,type');
    const missing = sheet.names.getItemOrNullObject('Nothing');
    await context.sync();
    return [identity.value, identity.formula, identity.visible, identity.type, missing.isNullObject];
  });
  expect(read).toEqual(['run;1;a1b2', '="run;1;a1b2"', false, 'String', true]);
  const taken = await refusal(() =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').names.add('lightsheet', '=1');
      await context.sync();
    }),
  );
  expect(taken.code).toBe('ItemAlreadyExists');
});

test('deleting a sheet takes its names away; references to it become #REF!', async () => {
  const { run } = createTestHost();
  await runSheet(run);
  const read = await run(async (context) => {
    const reader = context.workbook.worksheets.getItem('Sheet1').getRange('A1');
    reader.formulas = [["='Run 1'!B2+1"]];
    await context.sync();
    context.workbook.worksheets.getItem('Run 1').delete();
    reader.load('values');
    await context.sync();
    return reader.values[0]![0];
  });
  expect(read).toBe('#REF!');
});
