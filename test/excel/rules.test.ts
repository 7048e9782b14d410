import { expect, it } from 'vitest';
import { readBook } from '../../src/excel/book';
import { writeValidation } from '../../src/excel/write';
import type { ValidationRule } from '../../src/sheets/book';
import { createTestHost } from '../workbench/client';

/** Every kind of rule that our sheets hold. */
const RULES: readonly ValidationRule[] = [
  { type: 'number', min: 0, max: 200_000 },
  { type: 'number', min: 0.001 },
  { type: 'number', max: 1e-9 },
  { type: 'number', min: 1, max: 99, whole: true },
  { type: 'number' },
  { type: 'date', min: '2000-01-01' },
  { type: 'length', max: 60 },
  { type: 'list', choices: ['lx', 'fc'] },
  { type: 'formula', formula: '=ISNUMBER(B9)' },
];

const cell = (i: number) => `B${i + 1}`;

/** The rules of B1 and below, read as a check reads them. */
async function rulesOf(test: ReturnType<typeof createTestHost>, count: number): Promise<ValidationRule[]> {
  const cells = Array.from({ length: count }, (_, i) => cell(i));
  const book = await test.run((context) => readBook(context, { validations: { Sheet1: cells } }, true));
  return book.sheets[0]!.validations.map(({ rule }) => rule);
}

it('every kind of rule reads back as it was written, bounds told as text formulas', async () => {
  const test = createTestHost();
  await test.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1:B20').values = Array.from({ length: 20 }, (_, i) => [i, i]);
    for (const [i, rule] of RULES.entries())
      writeValidation(sheet.getRange(cell(i)), {
        rule,
        prompt: { title: '', message: '' },
        refusal: { title: '', message: '', style: 'stop' },
      });
    await context.sync();
  });
  const told = await test.run(async (context) => {
    const { dataValidation } = context.workbook.worksheets.getItem('Sheet1').getRange(cell(0));
    dataValidation.load('rule');
    await context.sync();
    return dataValidation.rule;
  });
  // "When retrieving the value, it will always be returned as a string formula, for example: "=10"": reference of
  // Excel.BasicDataValidation.formula1 (@types/office-js 1.0.612).
  expect(told).toEqual({ decimal: { formula1: '=0', formula2: '=200000', operator: 'Between' } });
  expect(await rulesOf(test, RULES.length)).toEqual(RULES);
});

it('a rule with other bounds, another comparison or a reference is none of ours', async () => {
  const test = createTestHost();
  const changed: Excel.DataValidationRule[] = [
    { decimal: { formula1: 0, formula2: 200_000, operator: 'NotBetween' } },
    { decimal: { formula1: '=A1', formula2: 200_000, operator: 'Between' } },
    { textLength: { formula1: 60, operator: 'GreaterThan' } },
    { date: { formula1: '2000-01-01', operator: 'LessThan' } },
  ];
  await test.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('B1:B9').values = Array.from({ length: 9 }, (_, i) => [i]);
    for (const [i, rule] of changed.entries()) sheet.getRange(cell(i)).dataValidation.rule = rule;
    await context.sync();
  });
  expect(await rulesOf(test, changed.length)).toEqual([
    { type: 'formula', formula: 'NotBetween =0 =200000' },
    { type: 'formula', formula: 'Between =A1 =200000' },
    { type: 'formula', formula: 'GreaterThan =60' },
    { type: 'formula', formula: 'LessThan =36526' },
  ]);
});
