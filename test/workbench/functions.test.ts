import { expect, test } from 'vitest';
import { CustomFunctionError } from '../../src/workbench/engine/functionerror';
import type { Implementation } from '../../src/workbench/engine/functions';
import { createTestHost } from './client';

const any = { type: 'any' };
const METADATA = {
  functions: [
    { id: 'TOTAL', name: 'TOTAL', parameters: [{ name: 'grid', type: 'any', dimensionality: 'matrix' }] },
    {
      id: 'MEAN',
      name: 'MEAN',
      parameters: [
        { name: 'grid', type: 'any', dimensionality: 'matrix' },
        { name: 'factor', type: 'number', optional: true },
      ],
      options: { allowErrorForDataTypeAny: true },
    },
    { id: 'TABLE', name: 'TABLE', parameters: [{ name: 'rows', type: 'number' }] },
    {
      id: 'SHAPE',
      name: 'SHAPE',
      parameters: [
        { name: 'a', ...any },
        { name: 'b', ...any, optional: true },
        { name: 'c', ...any, optional: true },
      ],
    },
    { id: 'FAIL', name: 'FAIL', parameters: [{ name: 'how', type: 'string' }] },
    { id: 'WHERE', name: 'WHERE', parameters: [] },
    { id: 'LOST', name: 'LOST', parameters: [] },
    { id: 'JOIN', name: 'JOIN', parameters: [{ name: 'parts', ...any, repeating: true }] },
    { id: 'DOUBLE', name: 'DOUBLE', parameters: [{ name: 'x', type: 'number' }] },
  ],
};

type Invocation = { readonly address: string; readonly functionName: string };

async function host() {
  const test = createTestHost();
  const seen: unknown[][] = [];
  const implementations = new Map<string, (...args: never[]) => unknown>();
  implementations.set('TOTAL', (grid: unknown[][]) => {
    seen.push([grid]);
    return grid.flat().reduce((sum: number, value) => sum + Number(value), 0);
  });
  implementations.set('MEAN', (grid: unknown[][], factor: number | null) => {
    seen.push([grid, factor]);
    const bad = grid.flat().find((value) => value instanceof CustomFunctionError);
    if (bad) throw new CustomFunctionError('#N/A', `a reading is ${(bad as CustomFunctionError).code}`);
    return (
      (factor ?? 1) *
      (grid.flat().reduce((sum: number, value) => sum + Number(value), 0) / grid.flat().length)
    );
  });
  implementations.set('TABLE', (rows: number) =>
    Array.from({ length: rows }, (_, row) => [`row ${row + 1}`, row + 1]),
  );
  implementations.set('SHAPE', (...args: unknown[]) => JSON.stringify(args.slice(0, -1)));
  implementations.set('FAIL', (how: string) => {
    if (how === 'said') throw new CustomFunctionError('#VALUE!', 'the ninth reading is missing');
    if (how === 'later') return Promise.reject(new CustomFunctionError('#N/A', 'too late'));
    if (how === 'not') return Promise.resolve(21);
    throw new TypeError('a bug');
  });
  implementations.set('WHERE', ({ address, functionName }: Invocation) => `${address} ${functionName}`);
  implementations.set('JOIN', (parts: unknown[]) => parts.join('+'));
  implementations.set('DOUBLE', (x: number) => x * 2);
  await test.workbench.registerFunctions(METADATA, implementations as ReadonlyMap<string, Implementation>);
  /** Enters formulas into A1, A2, … of "Sheet1" and answers what the cells show. */
  const compute = (...formulas: string[]) =>
    test.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange(`A1:A${formulas.length}`);
      range.formulas = formulas.map((formula) => [formula]);
      range.load('values,formulas');
      await context.sync();
      expect(range.formulas.flat()).toEqual(formulas);
      return range.values.flat();
    });
  return { ...test, compute, seen };
}

test('a blank cell reaches a function as 0, as in Excel', async () => {
  // OfficeDev/office-js issue 1951: blank cells arrive as 0.
  const { run, compute, seen } = await host();
  await run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('D1:D3').values = [[1], [''], [3]];
    await context.sync();
  });
  expect(await compute('=LIGHT.TOTAL(D1:D3)')).toEqual([4]);
  expect(seen.at(-1)).toEqual([[[1], [0], [3]]]);
});

test('arguments left out arrive as null, at the end and in the middle', async () => {
  // "Custom functions parameter options", Office Add-ins documentation: an omitted optional parameter is null.
  const { compute } = await host();
  expect(await compute('=LIGHT.SHAPE(1)', '=LIGHT.SHAPE(1,,3)', '=LIGHT.SHAPE(1,0,"x")')).toEqual([
    '[1,null,null]',
    '[1,null,3]',
    '[1,0,"x"]',
  ]);
});

test('a text in quotes is a text, whatever it looks like', async () => {
  // ECMA-376-1, 18.17 (from memory): a string constant is text, and LEN counts its characters.
  const { compute } = await host();
  expect(
    await compute(
      '=LIGHT.SHAPE("16:9","2026-03-04","10%")',
      '=LEN("16:9")',
      '="16:9"',
      '=IF(ISTEXT("1/2"),"yes","no")',
    ),
  ).toEqual(['["16:9","2026-03-04","10%"]', 4, '16:9', 'yes']);
});

test('an error with a message shows its code and keeps its message', async () => {
  const { compute, engine } = await host();
  expect(await compute('=LIGHT.FAIL("said")', '=LIGHT.FAIL("bug")', '=LIGHT.LOST()')).toEqual([
    '#VALUE!',
    '#VALUE!',
    '#N/A',
  ]);
  const sheet = engine.activeSheet.id;
  expect(engine.errorMessage(sheet, 0, 0)).toBe('the ninth reading is missing');
  expect(engine.errorMessage(sheet, 1, 0)).toBeUndefined();
  expect(engine.activeSheet.value(0, 0)).toEqual({
    error: '#VALUE!',
    message: 'the ninth reading is missing',
  });
});

test('a two-dimensional result spills, and is blocked by what stands there', async () => {
  const { run, compute } = await host();
  expect(await compute('=LIGHT.TABLE(2)')).toEqual(['row 1']);
  const spilled = await run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:B2').load('values');
    const anchor = range.getCell(0, 0).getSpillingToRange().load('address');
    await context.sync();
    return [range.values, anchor.address];
  });
  expect(spilled).toEqual([
    [
      ['row 1', 1],
      ['row 2', 2],
    ],
    'Sheet1!A1:B2',
  ]);
  const blocked = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('B2').values = [['in the way']];
    const range = sheet.getRange('A1').load('values');
    await context.sync();
    return range.values[0]![0];
  });
  expect(blocked).toBe('#SPILL!');
});

test('an error cell reaches a function that allows it, and stops every other', async () => {
  const { run, compute, seen } = await host();
  await run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('D1:D2').formulas = [['=1/0'], [2]];
    await context.sync();
  });
  const before = seen.length;
  expect(await compute('=LIGHT.MEAN(D1:D2)', '=LIGHT.TOTAL(D1:D2)')).toEqual(['#N/A', '#VALUE!']);
  expect(seen.slice(before).every((args) => args.length === 2)).toBe(true);
});

test('a function that answers later is busy until it has answered, and what depends on it follows', async () => {
  const { run, compute, workbench } = await host();
  const formulas = ['=LIGHT.FAIL("later")', '=LIGHT.FAIL("not")', '=A2*2', '=LIGHT.DOUBLE(A2)'];
  // Excel's word for a function that is being waited for (Office Add-ins documentation, custom functions).
  expect(await compute(...formulas)).toEqual(['#BUSY!', '#BUSY!', '#BUSY!', '#BUSY!']);
  const state = () =>
    run(async (context) => {
      const { application } = context.workbook;
      application.load('calculationState');
      await context.sync();
      return application.calculationState;
    });
  expect(await state()).toBe('Pending');
  // A file waits for the answers.
  const { A1, A2, A3, A4 } = (await workbench.toBook()).sheets[0]!.cells;
  expect(A1!.value).toEqual({ error: '#N/A', message: 'too late' });
  expect([A2, A3, A4].map((cell) => cell!.value)).toEqual([21, 42, 42]);
  expect(await state()).toBe('Done');
});

test('a function that answers later is asked once for the same arguments, and anew when its cell is entered', async () => {
  const { run, compute, workbench } = await host();
  let asked = 0;
  await workbench.registerFunctions(
    METADATA,
    new Map<string, Implementation>([['DOUBLE', (x: number) => Promise.resolve(++asked && x * 2)]]),
  );
  const enter = async (address: string, text: string | number) =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange(address).formulas = [[text]];
      await context.sync();
    });
  await enter('D1', 4);
  expect(await compute('=LIGHT.DOUBLE(D1)')).toEqual(['#BUSY!']);
  await workbench.toBook();
  await enter('D1', 5);
  await workbench.toBook();
  await enter('D1', 4);
  expect((await workbench.toBook()).sheets[0]!.cells.A1!.value).toBe(8);
  expect(asked).toBe(2);
  await enter('A1', '=LIGHT.DOUBLE(D1)');
  expect((await workbench.toBook()).sheets[0]!.cells.A1!.value).toBe(8);
  expect(asked).toBe(3);
});

test('the invocation says where the function stands', async () => {
  const { compute } = await host();
  expect(await compute('=LIGHT.WHERE()', '=LEN(LIGHT.WHERE())')).toEqual(['Sheet1!A1 LIGHT.WHERE', 21]);
});

test('repeating arguments, typed arguments, and a range for one value', async () => {
  const { run, compute } = await host();
  await run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('D1:D2').values = [[5], [6]];
    await context.sync();
  });
  expect(await compute('=LIGHT.JOIN("a",2,D1)', '=LIGHT.DOUBLE("4")', '=LIGHT.DOUBLE("x")')).toEqual([
    'a+2+5',
    8,
    '#VALUE!',
  ]);
  expect(await compute('=SUM(LIGHT.DOUBLE(D1:D2))')).toEqual([22]);
});

test('a function follows its readings, through a sheet-scoped name', async () => {
  const { run } = await host();
  const values = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.names.add('Readings', sheet.getRange('B1:B3'));
    sheet.getRange('B1:B3').values = [[1], [2], [3]];
    const cell = sheet.getRange('D1');
    cell.formulas = [['=IF(COUNT(Readings)<3,"missing",LIGHT.MEAN(Readings,10))']];
    cell.load('values');
    await context.sync();
    const seen = [cell.values[0]![0]];
    sheet.getRange('B2').values = [['']];
    cell.load('values');
    await context.sync();
    seen.push(cell.values[0]![0]);
    sheet.getRange('B2').values = [[5]];
    cell.load('values');
    await context.sync();
    return [...seen, cell.values[0]![0]];
  });
  expect(values).toEqual([20, 'missing', 30]);
});

test('errors in cells reach every function where the list says so', async () => {
  const { run, workbench } = createTestHost();
  const seen: unknown[] = [];
  await workbench.registerFunctions(
    {
      allowErrorForDataTypeAny: true,
      functions: [
        { id: 'TAKE', name: 'TAKE', parameters: [{ name: 'grid', ...any, dimensionality: 'matrix' }] },
      ],
    },
    new Map([
      [
        'TAKE',
        (grid: unknown) => {
          seen.push(grid);
          return 1;
        },
      ],
    ]),
  );
  await run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('A1:A2').formulas = [
      ['=NA()'],
      ['=LIGHT.TAKE(A1)'],
    ];
    await context.sync();
  });
  await workbench.engine.calculation.settled();
  expect(seen).toEqual([[[expect.objectContaining({ code: '#N/A' })]]]);
});
