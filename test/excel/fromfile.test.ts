import { beforeAll, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { reportText } from '../../src/audit/check/text';
import { calculateBook } from '../../src/audit/formula/calculate';
import { verify } from '../../src/audit/seal/verify';
import type { Host } from '../../src/excel/host';
import type { Book, BookSheet } from '../../src/sheets/book';
import { callsOurs } from '../../src/sheets/calls';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { auditedBook } from '../../taskpane/trace/auditedbook';
import { EXAMPLES } from '../audit/examples';
import { sealed } from '../audit/sealing';
import { createPaneHost } from './host';

/*
 * Sealed by the command line, opened, and checked by the pane; and the other way round. Excel tells an add-in of
 * formulas that a file holds plainly with @ ("Implicit intersection operator: @", Microsoft support), and of the names
 * for printing and filters without the file's prefix (reference of Excel.NamedItem).
 */
let book: Book;
let host: Host;
let test: Awaited<ReturnType<typeof createPaneHost>>['test'];

const sheets = (): BookSheet[] =>
  ['need', 'offers', 'acceptance', 'batch'].flatMap((kind) => EXAMPLES[kind]!().sheets);

async function alarms(checked: Book): Promise<string> {
  const report = await check(checked);
  const findings = report.findings.filter(({ severity }) => severity !== 'note');
  let text = findings.length === 0 ? '' : reportText({ ...report, findings });
  for (const { name } of checked.sheets) {
    const seal = await verify(checked, name, { subtle: crypto.subtle });
    if (seal.state !== 'holds') text += `${name}: ${seal.state}\n${JSON.stringify(seal.differences)}`;
  }
  return text;
}

beforeAll(async () => {
  book = calculateBook({ sheets: sheets(), names: [] });
  for (const at of book.sheets.keys()) book = await sealed(book, at);
  ({ host, test } = await createPaneHost());
  await test.workbench.fromBook(await readXlsx(await writeXlsx(book)));
}, 120_000);

it('formulas come back with @, names with those for printing and filters, and check and seal are quiet', async () => {
  const { formulas, names } = await Excel.run(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/names/items/name,items/names/items/visible');
    await context.sync();
    const used = worksheets.items.map((sheet) => sheet.getUsedRange());
    for (const range of used) range.load('formulas');
    await context.sync();
    return {
      formulas: used.flatMap((range) => range.formulas.flat().map(String)),
      names: worksheets.items.flatMap((sheet) => sheet.names.items.map(({ name }) => name)),
    };
  });
  expect(formulas.filter((text) => text.startsWith('=') && text.includes('@INDEX('))).not.toEqual([]);
  for (const name of ['Print_Area', 'Print_Titles', '_FilterDatabase']) expect(names).toContain(name);
  expect(
    await alarms(
      await auditedBook(
        host,
        book.sheets.map(({ name }) => name),
      ),
    ),
  ).toBe('');
});

it('formulas entered through the API are saved as array formulas of one cell: quiet too', async () => {
  const arrays: Book = {
    ...book,
    sheets: book.sheets.map((sheet) => ({
      ...sheet,
      cells: Object.fromEntries(
        Object.entries(sheet.cells).map(([at, cell]) => {
          const isArray = cell.formula?.includes('INDEX(') && !callsOurs(cell.formula);
          return [at, isArray ? { ...cell, spill: at } : cell];
        }),
      ),
    })),
  };
  const read = await readXlsx(await writeXlsx(arrays));
  expect(read.sheets.flatMap(({ cells }) => Object.values(cells)).some(({ spill }) => spill)).toBe(true);
  expect(await alarms(read)).toBe('');
});

it('formulas are entered again without stopping the tables that functions fill', async () => {
  // Every cell of an array result tells the formula of its first one: reference of Range.Formula2 (Excel's macros).
  const { name, cells } = book.sheets.at(-1)!;
  const own = Object.values(cells).filter(({ formula }) => formula !== undefined).length;
  expect(Object.values(cells).some(({ spill }) => spill?.includes(':'))).toBe(true);
  expect(await host.refresh(name)).toEqual({ formulas: own });
  await test.engine.calculation.settled();
  const all = book.sheets.map((sheet) => sheet.name);
  expect(await alarms(await auditedBook(host, all))).toBe('');
});
