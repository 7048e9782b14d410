import ExcelJS from 'exceljs';
import { unzipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkSheet } from '../../src/audit/check/check';
import { calculateBook } from '../../src/audit/formula/calculate';
import { viewOf } from '../../src/audit/view';
import { addressOf, cellName, cellsOf, rectOf } from '../../src/sheets/address';
import type { Book, BookCell } from '../../src/sheets/book';
import { moveFormula } from '../../src/sheets/move';
import { offersPlan } from '../../src/sheets/offers';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { styleOf } from '../../src/sheets/style';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { EXAMPLES, offers } from '../audit/examples';
import { withSheet } from '../audit/sheets';
import { createPaneHost } from '../excel/host';
import { convert } from '../tools/libreoffice';

/* Lines of a table are filtered, and those of offers sorted, by the spreadsheet program itself. */
const PLAN = offersPlan(
  {
    asked: { white: 2500, colour: 2500 },
    use: { years: 5, hoursPerYear: 1000, tariff: 0.3, currency: 'EUR' },
    offers: [{ bidder: 'North (invented)', white: 3000, colour: 2900 }],
    spare: 2,
  },
  'of1',
);

/** All cells below the heads. */
function openLines(): string[] {
  const { row, rows, ...rest } = rectOf(PLAN.filter!.range);
  return cellsOf(addressOf({ ...rest, row: row + 1, rows: rows - 1 }));
}

it('every cell of the lines of offers is open, since a program sorts no others on a protected sheet', () => {
  // Microsoft support, "Lock or unlock specific areas of a protected worksheet": Sort.
  expect(openLines().filter((at) => styleOf(PLAN.cells[at]!).locked !== false)).toEqual([]);
  expect(styleOf(PLAN.cells.A1!).locked).not.toBe(false);
});

it('offers that are sorted stay as they were built: a check is quiet', async () => {
  const book = offers();
  const at = book.sheets.length - 1;
  const { range } = book.sheets[at]!.filter!;
  const { row, rows, columns } = rectOf(range);
  const lines = Array.from({ length: rows - 1 }, (_, i) => row + 1 + i);
  const sorted = calculateBook(
    withSheet(book, at, (sheet) => {
      const cells: Record<string, BookCell> = { ...sheet.cells };
      for (const [i, to] of lines.entries()) {
        const from = lines[lines.length - 1 - i]!;
        for (let column = 0; column < columns; column++) {
          const { formula, ...cell } = sheet.cells[cellName(from, column)]!;
          // Relative references go with their line, as when it is copied there.
          const moved = formula === undefined ? {} : { formula: moveFormula(formula, to - from, 0) };
          cells[cellName(to, column)] = { ...cell, ...moved };
        }
      }
      return { ...sheet, cells };
    }),
  );
  const bidders = (one: Book) => {
    const sheet = one.sheets[at]!;
    return cellsOf(viewOf(sheet).places.get('bidders')!.address).map((cell) => sheet.cells[cell]?.value);
  };
  expect(bidders(sorted)).toEqual(bidders(book).reverse());
  const kinds = (one: Book) => checkSheet(viewOf(one.sheets[at]!), one).map(({ kind }) => kind);
  expect(kinds(sorted)).toEqual(kinds(book));
});

describe('in a file', () => {
  let bytes: Uint8Array;
  let names: string[];
  beforeAll(async () => {
    const sheets = ['offers', 'acceptance', 'batch', 'need'].map((kind) => EXAMPLES[kind]!().sheets.at(-1)!);
    names = sheets.map(({ name }) => name);
    bytes = await writeXlsx({ sheets, names: [] });
  });

  it('ECMA-376 allows sorting and filtering of offers, filtering of lots and batches, neither elsewhere', () => {
    // ECMA-376, part 1, 18.3.1.85: true, the default of sort and autoFilter, is locked.
    const protections = names.map((_, i) => {
      const xml = new TextDecoder().decode(unzipSync(bytes)[`xl/worksheets/sheet${i + 1}.xml`]);
      const attributes = /<sheetProtection[^>]*>/.exec(xml)![0];
      return ['sort', 'autoFilter'].map((name) => new RegExp(` ${name}="0"`).test(attributes));
    });
    expect(protections).toEqual([
      [true, true],
      [false, true],
      [false, true],
      [false, false],
    ]);
  });

  it('ExcelJS and LibreOffice find the arrows where they are, and ours too', async () => {
    const wanted = (await readXlsx(bytes)).sheets.map(({ filter }) => filter?.range);
    expect(wanted.map((range) => range !== undefined)).toEqual([true, true, true, false]);
    const foreign = new ExcelJS.Workbook();
    await foreign.xlsx.load(Buffer.from(bytes) as unknown as ExcelJS.Buffer);
    expect(foreign.worksheets.map(({ autoFilter }) => autoFilter ?? undefined)).toEqual(wanted);
    const [saved] = await convert([bytes], 'xlsx');
    const { sheets } = await readXlsx(saved!);
    expect(sheets.map(({ filter }) => filter?.range)).toEqual(wanted);
    expect(sheets.map(({ filter }) => filter?.sorts ?? false)).toEqual([true, false, false, false]);
  });
});

describe('through the real client library', () => {
  it('a sheet gets arrows and what they need, keeps it through refreshing, and gets it back', async () => {
    const { host, test } = await createPaneHost();
    const { sheet } = await host.build(PLAN);
    const engine = () => test.engine.sheetByName(sheet)!;
    const allowed = () => {
      const { allowSort, allowAutoFilter, allowFormatColumns } = engine().protection!.options;
      return [allowSort, allowAutoFilter, allowFormatColumns];
    };
    expect(addressOf(engine().filter!)).toBe(PLAN.filter!.range);
    expect(allowed()).toEqual([true, true, true]);
    const lines = openLines();
    const read = (await host.book({ sheets: [sheet] })).sheets[0]!;
    expect(lines.filter((at) => read.cells[at]?.style?.locked !== false)).toEqual([]);
    expect(checkSheet(viewOf(read)).filter(({ kind }) => kind === 'lock')).toEqual([]);
    await host.refresh(sheet);
    await host.restore(sheet, { cells: [] });
    await host.editNames([{ sheet, remove: [], set: [{ name: 'Some', refersTo: '=1' }] }]);
    expect(allowed()).toEqual([true, true, true]);
    await test.run(async (context) => {
      context.workbook.worksheets.getItem(sheet).protection.unprotect();
      await context.sync();
    });
    await host.restore(sheet, { filter: PLAN.filter! });
    expect(allowed()).toEqual([true, true, true]);
    const saved = (await test.workbench.toBook()).sheets.find(({ name }) => name === sheet)!;
    expect(saved.filter).toEqual(PLAN.filter);
  });

  it('a run sheet has no arrows, and nothing on it is sorted', async () => {
    const { host, test } = await createPaneHost();
    const { sheet } = await host.build(runPlan(defaultRunSetup(), 'ru1'));
    const { filter, protection } = test.engine.sheetByName(sheet)!;
    expect(filter).toBeUndefined();
    expect(protection!.options).toMatchObject({ allowSort: false, allowAutoFilter: false });
  });
});
