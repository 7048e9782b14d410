import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/audit/formula/calculate';
import { evaluate } from '../../src/audit/formula/evaluate';
import { parse } from '../../src/audit/formula/parse';
import type { CellValue } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { runResults } from '../../src/sheets/run';
import { writeXlsx } from '../../src/xlsx/write';
import { byFunctions, filled, randomRun } from '../sheets/randomrun';
import { recalculate } from '../tools/libreoffice';

const RUNS = Array.from({ length: 12 }, (_, i) => randomRun(i + 101));

describe('sheets calculated without a spreadsheet program', () => {
  it('give every result the custom functions give, by function and by plain formula', () => {
    for (const run of RUNS) {
      const sheet = calculate(bookOf([filled(run)]).sheets[0]!);
      const expected = byFunctions(run);
      for (const { name } of runResults(run.setup)) {
        for (const suffix of ['', 'Plain']) {
          const at = run.plan.names.find((n) => n.name === name + suffix)!.range;
          expect(near(sheet.cells[at]!.value, expected[name]!), `${name}${suffix} in ${at}`).toBe(true);
        }
      }
    }
  });

  // The expected values are LibreOffice Calc's: it calculates every formula but those of the add-in.
  it('have in every cell what LibreOffice has, where it has no custom function to ask', async () => {
    const book = bookOf(RUNS.map(filled));
    const [theirs] = await recalculate([await writeXlsx(book, { cachedValues: false })]);
    const differ: string[] = [];
    let compared = 0;
    book.sheets.map(calculate).forEach((sheet, i) => {
      const other = theirs!.sheets[i]!;
      for (const [at, cell] of Object.entries(sheet.cells)) {
        if (cell.formula === undefined || needsAddIn(cell.formula)) continue;
        compared++;
        const came = other.cells[at]?.value ?? '';
        if (!near(came, cell.value))
          differ.push(`${sheet.name} ${at} ${cell.formula}: ${came} / ${cell.value}`);
      }
    });
    expect(differ).toEqual([]);
    expect(compared).toBeGreaterThan(1000);
  }, 180_000);
});

/** Calls the add-in, or compares with a cell that does (the agreement of function and plain formula). */
const needsAddIn = (formula: string) => /LIGHT\.|^=IF\(ISERROR\(B/.test(formula);

function near(a: CellValue, b: CellValue): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-9 * Math.abs(b);
  return a === b;
}

describe('formulas', () => {
  const nothing = { range: () => undefined, name: () => undefined };
  // Precedence and coercion as Excel documents them ("Calculation operators and precedence in Excel"), from memory.
  it.each<[string, CellValue]>([
    ['=-2^2', 4],
    ['=2^3^2', 64],
    ['=1+2*3', 7],
    ['=50%*4', 2],
    ['="a"&1.5&TRUE', 'a1.5TRUE'],
    ['="A"="a"', true],
    ['=1/0', { error: '#DIV/0!' }],
    ['=IF(1>2,"x")', false],
    ['=IFERROR(1/0,"none")', 'none'],
    ['="x"+1', { error: '#VALUE!' }],
    ['=INT(-1.5)', -2],
    ['=AND(1<=1,2<>3,NOT(FALSE))', true],
    ['=LIGHT.DRIFT(1000,985)', 985 / 1000 - 1],
  ])('%s', (formula, value) => {
    expect(evaluate(parse(formula)!, nothing)).toEqual(value);
  });

  it.each([
    '=SUM(1',
    '=1)',
    '=A:A',
    '={1,2}',
    '=[1]Sheet1!A1',
    'no formula',
    '=',
    `=${'('.repeat(5000)}1${')'.repeat(5000)}`,
    `=${'-'.repeat(8000)}1`,
    `=1${'+1'.repeat(10000)}`,
  ])('are not taken apart where they are not whole or not ours: %s', (formula) => {
    expect(parse(formula)).toBeUndefined();
  });

  it('that use what we do not compute have no value, not a wrong one', () => {
    expect(evaluate(parse('=VLOOKUP(1,2,3)')!, nothing)).toBeUndefined();
    expect(evaluate(parse('=IF(TRUE,1,VLOOKUP(1,2,3))')!, nothing)).toBe(1);
    expect(evaluate(parse('=Unknown+1')!, nothing)).toBeUndefined();
  });
});
