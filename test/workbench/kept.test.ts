import { expect, test } from 'vitest';
import { FormulasKept } from '../../src/workbench/engine/formulaskept';
import { createTestHost } from './client';

type Row = readonly (string | number | null)[];

/** "Sheet1" with ten rows of A, B = 2·A, C = A + B above it; sums of columns, of a name and of a table that spills. */
async function workbook() {
  const { run, engine, workbench } = createTestHost();
  const set = (address: string, values: readonly Row[]) =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange(address).formulas = values.map((row) => [
        ...row,
      ]);
      await context.sync();
    });
  await workbench.registerFunctions(
    {
      functions: [
        {
          id: 'TWICE',
          name: 'TWICE',
          parameters: [{ name: 'x', dimensionality: 'matrix' }],
          result: { dimensionality: 'matrix' },
        },
      ],
    } as never,
    new Map([['TWICE', (cells: number[][]) => cells.map((row) => row.map((cell) => 2 * cell))]]) as never,
    'TEST',
  );
  await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.names.add('Numbers', sheet.getRange('A1:A10'));
    sheet.getRange('A1:A10').values = Array.from({ length: 10 }, (_, i) => [i + 1]);
    sheet.getRange('B1').formulas = [['=2*A1']];
    sheet.getRange('C1').formulas = [['=SUM(A$1:B1)']];
    sheet.getRange('B2:C10').copyFrom(sheet.getRange('B1:C1'), 'Formulas');
    sheet.getRange('E1').formulas = [['=TEST.TWICE(A1:A10)']];
    sheet.getRange('G1:G4').formulas = [['=SUM(Numbers)'], ['=C10'], ['=SUM(E1:E10)'], ['=G1+G2+G3']];
    await context.sync();
  });
  const read = (address = 'G1:G4') =>
    run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange(address).load('values');
      await context.sync();
      return range.values.map(([value]) => value);
    });
  return { run, engine, set, read };
}

/** Sum of the numbers, three times that below it, twice that of the table, and all together: by arithmetic. */
const sums = (total: number) => [total, 3 * total, 2 * total, 6 * total];

test('what follows from a value follows at every change, whatever was kept from the one before', async () => {
  const { set, read, engine } = await workbook();
  expect(await read()).toEqual(sums(55));
  for (const value of [101, 201, 1]) {
    await set('A1', [[value]]);
    expect(await read()).toEqual(sums(54 + value));
  }
  engine.recalculate();
  await engine.settled();
  expect(await read()).toEqual(sums(55));
});

test('a formula that is typed, replaced or taken away is followed from then on', async () => {
  const { set, read } = await workbook();
  await set('A1', [[2]]);
  await set('A2', [['=A1+10']]);
  expect(await read()).toEqual(sums(55 + 1 + 10));
  await set('A1', [[3]]);
  expect(await read()).toEqual(sums(55 + 2 + 11));
  await set('A2', [[2]]);
  await set('A1', [[1]]);
  expect(await read()).toEqual(sums(55));
  // B1 gives its formula to the cells below it; they keep it.
  await set('B1', [[0]]);
  expect(await read()).toEqual([55, 163, 110, 328]);
  await set('A10', [[20]]);
  expect(await read()).toEqual([65, 193, 130, 388]);
});

test('rows, names, sheets and functions that depend on values are followed too', async () => {
  const { run, set, read, engine } = await workbook();
  await set('A1', [[2]]);
  // A row that a person puts in.
  const shown = engine.api.getActiveWorkbook()!.getActiveSheet();
  shown.insertRowBefore(12);
  await engine.settled();
  await run(async (context) => {
    const other = context.workbook.worksheets.add('Other');
    other.getRange('A1').values = [[7]];
    context.workbook.worksheets.getItem('Sheet1').getRange('H1:H3').formulas = [
      ['=Other!A1*A1'],
      ['=SUM(OFFSET(A1,0,0,A10,1))'],
      ['=SUM(INDIRECT("A1:A2"))'],
    ];
    await context.sync();
  });
  expect(await read('H1:H3')).toEqual([14, 56, 4]);
  await set('A1', [[3]]);
  expect(await read('H1:H3')).toEqual([21, 57, 5]);
  await set('A10', [[2]]);
  expect(await read('H1:H3')).toEqual([21, 5, 5]);
  await run(async (context) => {
    context.workbook.worksheets.getItem('Other').getRange('A1').values = [[8]];
    await context.sync();
  });
  expect(await read('H1')).toEqual([24]);
  await run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').names.getItem('Numbers').formula = '=Sheet1!$A$1:$A$2';
    await context.sync();
  });
  expect((await read())[0]).toBe(5);
  await set('A1', [[10]]);
  expect((await read())[0]).toBe(12);
});

test('formulas are gathered once, and anew after what may have changed one', () => {
  let gathered = 0;
  const formulas = { book: { sheet: { 0: { 1: { f: '=A1' } } } } };
  const model = {
    getFormulaData: () => {
      gathered++;
      return formulas;
    },
    updateFormulaData: (..._: unknown[]) => ({ 0: {} }),
  };
  const listeners: ((command: object) => void)[] = [];
  const listen = (listener: (command: object) => void) => listeners.push(listener);
  new FormulasKept(model as never, { beforeCommandExecuted: listen, onCommandExecuted: listen } as never);
  const did = (id: string, params: object = {}) => {
    for (const tell of listeners) tell({ id, type: 2, params });
    model.getFormulaData();
    return gathered;
  };
  const write = (column: number, cell: object | null) =>
    did('sheet.mutation.set-range-values', {
      unitId: 'book',
      subUnitId: 'sheet',
      cellValue: { 0: { [column]: cell } },
    });
  expect(did('formula.mutation.set-formula-calculation-start')).toBe(1);
  expect(write(0, { v: 1, f: null, si: null })).toBe(1);
  // A result of the formula itself.
  expect(write(1, { v: 1, t: 2 })).toBe(1);
  expect(model.updateFormulaData('book', 'sheet', { 0: { 0: { v: 2 } } } as never)).toEqual({});
  expect(gathered).toBe(1);
  expect(write(1, { v: 1, f: null })).toBe(2);
  expect(write(1, null)).toBe(3);
  expect(write(0, { f: '=B1' })).toBe(4);
  expect(did('sheet.mutation.insert-row')).toBe(5);
});
