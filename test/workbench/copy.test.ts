import { expect, test } from 'vitest';
import { createTestHost } from './client';
import { refusal } from './refusal';

/** The rules are those of the reference of Excel.Range.copyFrom and of how Excel moves references when it copies. */
test('a row of formulas is copied down: relative references move, absolute ones and names stay', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1:A4').values = [[1], [2], [3], [4]];
    sheet.getRange('H1').values = [[10]];
    sheet.names.add('Ten', sheet.getRange('H1'));
    sheet.getRange('B1:D1').formulas = [['=A1*2', '=SUM($A$1:A1)', '=A1*Ten']];
    sheet.getRange('B2:D4').copyFrom('B1:D1', 'Formulas');
    const copied = sheet.getRange('B2:D4');
    copied.load('formulas,values');
    await context.sync();
    return [copied.formulas, copied.values];
  });
  expect(read).toEqual([
    [
      ['=A2*2', '=SUM($A$1:A2)', '=A2*Ten'],
      ['=A3*2', '=SUM($A$1:A3)', '=A3*Ten'],
      ['=A4*2', '=SUM($A$1:A4)', '=A4*Ten'],
    ],
    [
      [4, 3, 20],
      [6, 6, 30],
      [8, 10, 40],
    ],
  ]);
});

test('a copied formula follows what it refers to, and can be replaced by itself', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1:A3').values = [[1], [2], [3]];
    sheet.getRange('B1').formulas = [['=A1+1']];
    sheet.getRange('B2:B3').copyFrom('B1', 'Formulas');
    await context.sync();
    // The first of the copies goes: the other stays what it was.
    sheet.getRange('B2').formulas = [['=A2*100']];
    sheet.getRange('A1:A3').values = [[5], [6], [7]];
    const all = sheet.getRange('B1:B3');
    all.load('formulas,values');
    await context.sync();
    return [all.formulas, all.values];
  });
  expect(read).toEqual([
    [['=A1+1'], ['=A2*100'], ['=A3+1']],
    [[6], [600], [8]],
  ]);
});

test('what is no formula is copied as it is; a destination of another size gets one copy', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1:A2').values = [['text'], [5]];
    sheet.getRange('C1:C3').copyFrom('A1:A2', 'Formulas');
    sheet.getRange('E1:E4').copyFrom('A1:A2', 'Formulas');
    const all = sheet.getRange('C1:E4');
    all.load('values');
    await context.sync();
    return all.values;
  });
  expect(read).toEqual([
    ['text', '', 'text'],
    [5, '', 5],
    ['', '', 'text'],
    ['', '', 5],
  ]);
});

/** Reference of Excel.RangeCopyType: "formats" is all formatting; contents stay. A merge or a rule is no format of a cell. */
test('looks, number formats and locks are copied, over whatever stood there, and nothing else', async () => {
  const { run } = createTestHost();
  const read = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1:A3').values = [[1], [2], [3]];
    sheet.getRange('A1').format.font.bold = true;
    sheet.getRange('A1').numberFormat = [['0.00']];
    sheet.getRange('A1').format.protection.locked = false;
    sheet.getRange('A2:A3').format.fill.color = '#FF0000';
    sheet.getRange('A2:A3').copyFrom(sheet.getRange('A1'), 'Formats');
    const copied = sheet.getRange('A2:A3');
    copied.load('values,numberFormat');
    copied.format.font.load('bold');
    copied.format.fill.load('color');
    copied.format.protection.load('locked');
    await context.sync();
    const { font, fill, protection } = copied.format;
    return [copied.values, copied.numberFormat, font.bold, fill.color, protection.locked];
  });
  expect(read).toEqual([[[2], [3]], [['0.00'], ['0.00']], true, '#FFFFFF', false]);
});

test('locked cells of a protected sheet refuse, and other kinds of copying are not there', async () => {
  const { run } = createTestHost();
  const copy = (type: 'Formulas' | 'All') =>
    refusal(() =>
      run(async (context) => {
        context.workbook.worksheets.getItem('Sheet1').getRange('B1').copyFrom('A1', type);
        await context.sync();
      }),
    );
  expect(await copy('All')).toMatchObject({ code: 'ApiNotAvailable' });
  await run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').protection.protect();
    await context.sync();
  });
  expect(await copy('Formulas')).toMatchObject({ code: 'AccessDenied' });
});
