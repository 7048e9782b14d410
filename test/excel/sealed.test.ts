import { expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { reopen, seal } from '../../src/audit/seal/seal';
import { verify } from '../../src/audit/seal/verify';
import { trace } from '../../src/audit/trace/trace';
import { cellsOf } from '../../src/sheets/address';
import { runPlan } from '../../src/sheets/run';
import { styleOf } from '../../src/sheets/style';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { auditedBook } from '../../taskpane/trace/auditedbook';
import { repair } from '../../taskpane/trace/repair';
import { rangeNamed } from '../sheets/named';
import { filled, randomRun } from '../sheets/randomrun';
import { createPaneHost } from './host';

/* Trace, check and seal as the pane does them, through the real client library and the embedded engine. */

const run = randomRun(1);
const plan = runPlan(run.setup, 'b1');
const rangeOf = (name: string) => rangeNamed(plan, name);
const UTC = '2026-11-25T09:30:00Z';

async function measuredSheet() {
  const { host, test } = await createPaneHost();
  const { sheet } = await host.build(filled({ ...run, plan }));
  await test.engine.calculation.settled();
  const byHand = (change: (worksheet: Excel.Worksheet) => void) =>
    test.run(async (context) => {
      const worksheet = context.workbook.worksheets.getItem(sheet);
      worksheet.protection.unprotect();
      change(worksheet);
      await context.sync();
    });
  return { host, test, sheet, byHand };
}

it('a sealed run holds; a changed reading is named with what it moved; opening it is on record', async () => {
  const { host, test, sheet, byHand } = await measuredSheet();
  const { subtle } = crypto;
  const answer = await seal(await auditedBook(host, [sheet]), sheet, {
    who: 'A. Nobody',
    when: UTC,
    program: '0.0.0',
    subtle,
    newId: () => 'book1',
  });
  if (!answer.ok) throw new Error(answer.why);
  await host.editNames(answer.edits);
  expect(await verify(await auditedBook(host, [sheet]), sheet, { subtle })).toMatchObject({
    state: 'holds',
    differences: [],
    reasons: [],
  });

  // A file of the same workbook tells the same of it.
  const file = async () => readXlsx(await writeXlsx(await test.workbench.toBook()));
  expect(await verify(await file(), sheet, { subtle })).toMatchObject({ state: 'holds', differences: [] });
  const centred = rangeOf('WhiteLightOutputPlain');
  await byHand((worksheet) => {
    worksheet.getRange(centred).format.font.color = '#FFFFFF';
    worksheet.getRange(centred).format.rowHeight = 0;
    worksheet.getRange(centred).format.columnWidth = 0;
    worksheet.protection.protect();
  });
  const row = /\d+/.exec(centred)![0];
  const column = /[A-Z]+/.exec(centred)![0];
  for (const seen of [await auditedBook(host, [sheet]), await file()]) {
    const { differences } = await verify(seen, sheet, { subtle });
    expect(differences.map(({ group, key, change }) => [group, key, change])).toEqual([
      ['cell', centred, 'changed'],
      ['sheet', `row ${row}`, 'added'],
      ['sheet', `column ${column}`, 'added'],
    ]);
  }
  await byHand((worksheet) => {
    worksheet.getRange(centred).format.font.color = styleOf(plan.cells[centred]!).color!;
    worksheet.getRange(centred).format.rowHeight = 20;
    worksheet.getRange(centred).format.columnWidth = 60;
    worksheet.protection.protect();
  });

  const before = await host.readCells(sheet, [{ name: 'WhiteReadings', row: 1, column: 1 }]);
  await host.writeCells(sheet, [{ name: 'WhiteReadings', row: 1, column: 1, value: Number(before[0]) + 50 }]);
  await test.engine.calculation.settled();
  const broken = await verify(await auditedBook(host, [sheet]), sheet, { subtle });
  expect(broken.state).toBe('broken');
  const centre = cellsOf(rangeOf('WhiteReadings'))[4]!;
  expect(broken.differences.filter(({ group }) => group !== 'result')).toMatchObject([
    { group: 'cell', key: centre, change: 'changed' },
  ]);
  expect(broken.differences.map(({ key }) => key)).toContain(rangeOf('WhiteLightOutput'));

  // As it was again, the seal holds again.
  await host.writeCells(sheet, [{ name: 'WhiteReadings', row: 1, column: 1, value: before[0]! }]);
  await test.engine.calculation.settled();
  const again = await auditedBook(host, [sheet]);
  expect((await verify(again, sheet, { subtle })).state).toBe('holds');

  const opened = reopen(again, sheet, { who: 'A. Nobody', when: UTC, why: 'To read again' });
  if (!opened.ok) throw new Error(opened.why);
  await host.editNames(opened.edits);
  const open = await verify(await auditedBook(host, [sheet]), sheet, { subtle });
  expect(open).toMatchObject({ state: 'none', reasons: [] });
  expect(open.history.map(({ what, why }) => [what, why])).toEqual([
    ['sealed', ''],
    ['reopened', 'To read again'],
  ]);
});

it('what was altered is found and put back, one finding at a time, until nothing is found', async () => {
  const { host, test, sheet, byHand } = await measuredSheet();
  const at = rangeOf('WhiteLightOutputPlain');
  await byHand((worksheet) => {
    worksheet.getRange(at).values = [[2300]];
    worksheet.getRange(at).numberFormat = [['0.00']];
    worksheet.getRange(rangeOf('WhiteReadings')).dataValidation.clear();
    worksheet.names.getItem('SerialNumber').delete();
  });
  await test.engine.calculation.settled();
  const look = async () =>
    (await check(await auditedBook(host, [sheet]))).findings.filter(({ severity }) => severity !== 'note');
  const kinds = new Set((await look()).map(({ kind }) => kind));
  for (const kind of ['constant', 'validation', 'name', 'protection'] as const) expect(kinds).toContain(kind);

  // Each repair may settle several findings; none may be repaired twice.
  const repaired: string[] = [];
  for (let next = (await look())[0]; next; next = (await look())[0]) {
    expect(repaired).not.toContain(next.message);
    repaired.push(next.message);
    const found = (await look()).find(({ remedy }) => remedy !== 'read-again' && remedy !== undefined);
    expect(found).toBeDefined();
    expect(await repair(host, [found!])).toBe(1);
    await test.engine.calculation.settled();
  }
  expect((await host.book({ sheets: [sheet] })).sheets[0]!.isProtected).toBe(true);
});

it('the chain of a result recomputes to what the engine shows', async () => {
  const { host, sheet } = await measuredSheet();
  await host.select(sheet, rangeOf('WhiteLightOutputPlain'));
  const { cell } = await host.selection();
  const node = trace(await auditedBook(host, [sheet]), sheet, cell)!;
  expect(node).toMatchObject({ name: 'WhiteLightOutputPlain', findings: [] });
  // The engine keeps twelve digits.
  expect(Number(node.recomputed) / Number(node.value)).toBeCloseTo(1, 10);
});
