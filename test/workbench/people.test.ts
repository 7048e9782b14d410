import { createRequire } from 'node:module';
import type { Injector } from '@univerjs/core';
import { expect, test } from 'vitest';
import { showWrittenFormulas } from '../../src/workbench/engine/editor';
import { createTestHost } from './client';

type Host = ReturnType<typeof createTestHost>;

/** A sheet with readings in B2:B4, their name and a sum, an unlocked cell and a validation. */
async function filled(host: Host): Promise<void> {
  await host.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('B2:B4').values = [[1], [2], [3]];
    sheet.names.add('Readings', sheet.getRange('B2:B4'));
    sheet.getRange('D2').formulas = [['=SUM(Readings)']];
    sheet.getRange('B2:B4').format.protection.locked = false;
    sheet.getRange('B2:B4').dataValidation.rule = {
      decimal: { formula1: 0, formula2: 100, operator: 'Between' },
    };
    sheet.pageLayout.setPrintArea('A1:D4');
    sheet.horizontalPageBreaks.add('A3');
    await context.sync();
  });
}
const shown = (host: Host) => host.engine.activeSheet.shown;

test('rows a person inserts move names, formulas, locks, validations, the print area and page breaks', async () => {
  const host = createTestHost();
  await filled(host);
  shown(host).insertRowBefore(0);
  await host.engine.calculation.settled();
  const sheet = host.engine.activeSheet;
  expect(sheet.value(2, 3)).toBe(6);
  expect(sheet.formula(2, 3)).toBe('=SUM(Readings)');
  expect(host.engine.names.find('Readings', sheet.id)?.refersTo).toBe('=Sheet1!$B$3:$B$5');
  expect([sheet.isLocked(1, 1), sheet.isLocked(2, 1), sheet.isLocked(4, 1)]).toEqual([true, false, false]);
  expect(sheet.validationAt(4, 1)?.rule.decimal?.formula2).toBe(100);
  expect(sheet.page.area).toEqual({ row: 1, column: 0, rows: 4, columns: 4 });
  expect(sheet.page.breaks).toEqual([3]);
  await host.workbench.typeInto('Sheet1', 'B3', '10');
  expect(sheet.value(2, 3)).toBe(15);
});

test('rows a person deletes shrink them', async () => {
  const host = createTestHost();
  await filled(host);
  shown(host).deleteRow(2);
  await host.engine.calculation.settled();
  const sheet = host.engine.activeSheet;
  expect(sheet.value(1, 3)).toBe(4);
  expect(host.engine.names.find('Readings', sheet.id)?.refersTo).toBe('=Sheet1!$B$2:$B$3');
  expect(sheet.validations.map(({ range }) => range)).toEqual([{ row: 1, column: 1, rows: 2, columns: 1 }]);
});

test('a name typed in the spreadsheet itself is the name of that sheet', async () => {
  const host = createTestHost();
  await filled(host);
  shown(host).getRange('E2').setValue({ f: '=SUM(Readings)*2' });
  await host.engine.calculation.settled();
  expect(host.engine.activeSheet.value(1, 4)).toBe(12);
  expect(host.engine.activeSheet.formula(1, 4)).toBe('=SUM(Readings)*2');
});

test('a sheet a person renames keeps its names working', async () => {
  const host = createTestHost();
  await filled(host);
  shown(host).setName('Hall 2');
  await host.workbench.typeInto('Hall 2', 'B2', '10');
  expect(host.engine.activeSheet.value(1, 3)).toBe(15);
});

test('a guarded person is refused in locked cells, by validations, and in the layout of a protected sheet', async () => {
  const host = createTestHost();
  await filled(host);
  await host.run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').protection.protect();
    await context.sync();
  });
  const reasons: string[] = [];
  const stop = host.workbench.guardUserEdits((reason) => reasons.push(reason));
  const sheet = host.engine.activeSheet;
  shown(host).getRange('A1').setValue('x');
  shown(host).getRange('B2').setValue(500);
  shown(host).insertRowBefore(0);
  shown(host).getRange('B2').setBackground('#ff0000');
  expect(reasons).toEqual([
    expect.stringContaining('A1 is locked'),
    expect.stringContaining('restrictions'),
    expect.stringContaining('protected'),
    expect.stringContaining('protected'),
  ]);
  expect([sheet.value(0, 0), sheet.value(1, 1), sheet.style(1, 1).bg]).toEqual([null, 1, undefined]);
  shown(host).getRange('B2').setValue(50);
  expect(sheet.value(1, 1)).toBe(50);
  shown(host).setName('a/b');
  expect([reasons.at(-1), sheet.name]).toEqual([expect.stringContaining('cannot be a sheet name'), 'Sheet1']);
  stop();
  expect(reasons).toHaveLength(5);
});

test('clearing a cell as a person keeps its lock and its validation', async () => {
  const host = createTestHost();
  await filled(host);
  shown(host).getRange('B2').clearContent();
  const sheet = host.engine.activeSheet;
  expect([sheet.value(1, 1), sheet.isLocked(1, 1), sheet.validationAt(1, 1) !== undefined]).toEqual([
    null,
    false,
    true,
  ]);
});

test('undoing rows, a new name and a deleted sheet brings everything back', async () => {
  const host = createTestHost();
  await filled(host);
  await host.engine.calculation.settled();
  const { workbook } = host.engine.port;
  const [sheet] = host.engine.sheets();
  const state = () => [
    sheet!.value(1, 3),
    sheet!.formula(1, 3),
    host.engine.names.find('Readings', sheet!.id)?.refersTo,
    sheet!.isLocked(1, 1),
  ];
  const before = state();
  shown(host).insertRowBefore(0);
  await host.engine.calculation.settled();
  workbook.undo();
  await host.engine.calculation.settled();
  expect(state()).toEqual(before);
  await host.workbench.typeInto('Sheet1', 'B2', '10');
  expect(sheet!.value(1, 3)).toBe(15);

  workbook.insertSheet('Other');
  await host.engine.calculation.settled();
  workbook.deleteSheet(sheet!.id);
  await host.engine.calculation.settled();
  expect(host.engine.sheets().map(({ name }) => name)).toEqual(['Other']);
  workbook.undo();
  await host.engine.calculation.settled();
  expect(host.engine.sheetByName('Sheet1')).toBe(sheet);
  await host.workbench.typeInto('Sheet1', 'B2', '20');
  expect(state()).toEqual([25, ...before.slice(1)]);
});

test('a name made in the spreadsheet itself is a name of the workbook', async () => {
  const host = createTestHost();
  await filled(host);
  host.engine.port.workbook.insertDefinedName('Gain', 'Sheet1!$B$4');
  await host.engine.calculation.settled();
  await host.workbench.typeInto('Sheet1', 'E2', '=Gain*10');
  expect(host.engine.activeSheet.value(1, 4)).toBe(30);
  const seen = await host.run(async (context) => {
    const name = context.workbook.names.getItem('Gain').load('formula,scope');
    await context.sync();
    return [name.formula, name.scope];
  });
  expect(seen).toEqual(['=Sheet1!$B$4', 'Workbook']);
});

test('a sheet a person duplicates has its own names and keeps its locks', async () => {
  const host = createTestHost();
  await filled(host);
  host.engine.port.workbook.duplicateSheet(shown(host));
  await host.engine.calculation.settled();
  const copy = host.engine.sheets().find(({ name }) => name !== 'Sheet1')!;
  await host.workbench.typeInto(copy.name, 'B2', '100');
  expect(
    host.engine.sheets().map((sheet) => [sheet.value(1, 3), sheet.formula(1, 3), sheet.isLocked(1, 1)]),
  ).toEqual([
    [6, '=SUM(Readings)', false],
    [105, '=SUM(Readings)', false],
  ]);
});

test('the cell editor shows formulas as they were written', async () => {
  const host = createTestHost();
  await filled(host);
  const require = createRequire(import.meta.url);
  const { SheetInterceptorService, BEFORE_CELL_EDIT } =
    require('@univerjs/preset-sheets-node-core') as typeof import('@univerjs/preset-sheets-node-core');
  const { _injector: injector } = host.engine.api as unknown as { _injector: Injector };
  const interceptors = injector.get(SheetInterceptorService);
  const stop = showWrittenFormulas(host.engine, interceptors, BEFORE_CELL_EDIT);
  const sheet = host.engine.activeSheet;
  const edited = () =>
    interceptors.writeCellInterceptor.fetchThroughInterceptors(BEFORE_CELL_EDIT)(sheet.cell(1, 3), {
      subUnitId: sheet.id,
    } as never) as { f: string };
  expect(edited().f).toBe('=SUM(Readings)');
  stop();
  expect(edited().f).toMatch(/^=SUM\(Readings\.\d+\)$/);
});

test('entering a cell shows the prompt of its validation, or its note', async () => {
  const host = createTestHost();
  await host.run(async (context) => {
    const { dataValidation } = context.workbook.worksheets.getItem('Sheet1').getRange('B2');
    dataValidation.prompt = { showPrompt: true, title: 'Illuminance', message: 'in lx' };
    await context.sync();
  });
  host.engine.activeSheet.notes.set(4, 1, 'top left');
  const hint = (address: string) => host.workbench.hint('Sheet1', address);
  expect([hint('B2'), hint('B5'), hint('B6')]).toEqual([
    { title: 'Illuminance', message: 'in lx' },
    { title: '', message: 'top left' },
    undefined,
  ]);
});

test('brackets left open are closed, a formula that makes no sense is refused', async () => {
  const host = createTestHost();
  expect(await host.workbench.typeInto('Sheet1', 'A1', '=SUM(1,ABS(-2')).toEqual({ accepted: true });
  expect([host.engine.activeSheet.value(0, 0), host.engine.activeSheet.formula(0, 0)]).toEqual([
    3,
    '=SUM(1,ABS(-2))',
  ]);
  expect(await host.workbench.typeInto('Sheet1', 'A1', '=1+')).toMatchObject({ accepted: false });
});

test('a refused edit leaves the formula where it was', async () => {
  const host = createTestHost();
  await host.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1').formulas = [['=1+2']];
    sheet.protection.protect();
    await context.sync();
  });
  await host.engine.calculation.settled();
  const refused: string[] = [];
  host.workbench.guardUserEdits((message) => refused.push(message));
  host.engine.activeSheet.shown.getRange('A1').setValue(9999);
  const sheet = host.engine.activeSheet;
  expect([refused.length, sheet.formula(0, 0), sheet.value(0, 0)]).toEqual([1, '=1+2', 3]);
});

test('a value that a validation’s formula stops is taken out again, with its words', async () => {
  const host = createTestHost();
  await host.run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange('B2:B9');
    range.values = Array.from({ length: 8 }, (_, i) => [i + 1]);
    range.dataValidation.rule = { custom: { formula: '=OR(ISNUMBER(B2),B2="over")' } };
    range.dataValidation.errorAlert = {
      showAlert: true,
      style: 'Stop',
      title: 'Reading',
      message: 'a number or over',
    };
    await context.sync();
  });
  await host.engine.calculation.settled();
  const refused: string[] = [];
  host.workbench.guardUserEdits((message) => refused.push(message));
  const sheet = host.engine.activeSheet;
  sheet.shown.getRange('B2').setValue('bright');
  // Many at once, each judged by its own formula.
  sheet.shown.getRange('B3:B9').setValues([['over'], [12], [13], [14], ['over'], [16], [17]]);
  await expect.poll(() => refused).toEqual(['Reading: a number or over']);
  await host.engine.calculation.settled();
  expect(Array.from({ length: 8 }, (_, i) => sheet.value(i + 1, 1))).toEqual([
    1,
    'over',
    12,
    13,
    14,
    'over',
    16,
    17,
  ]);
});
