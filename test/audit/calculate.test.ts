import { describe, expect, it } from 'vitest';
import { calculate, calculateBook } from '../../src/audit/formula/calculate';
import { evaluate } from '../../src/audit/formula/evaluate';
import { parse } from '../../src/audit/formula/parse';
import type { CellValue } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { runResults } from '../../src/sheets/run';
import { uncertaintyResults } from '../../src/sheets/run/verdict';
import { writeXlsx } from '../../src/xlsx/write';
import { byModel } from '../sheets/bymodel';
import { rangeNamed } from '../sheets/named';
import { byFunctions, filled, randomRun } from '../sheets/randomrun';
import { amount } from '../tools/amount';
import { recalculate } from '../tools/libreoffice';
import { addInCells } from './addin';
import { EXAMPLES, readyExample, wideCertificate, wideComparison } from './examples';

const RUNS = Array.from({ length: amount(5, 12) }, (_, i) => randomRun(i + 101));

describe('sheets calculated without a spreadsheet program', () => {
  it('give every result the custom functions give, by function and by plain formula', () => {
    for (const run of RUNS) {
      const sheet = calculate(bookOf([filled(run)]).sheets[0]!);
      const results = byFunctions(run);
      // Doubts and decisions by the model of single causes, which knows nothing of the sheet's rows.
      const expected = { ...results, ...byModel(run, results) };
      for (const { name } of uncertaintyResults(run.setup)) {
        const at = rangeNamed(run.plan, name);
        const { value } = sheet.cells[at]!;
        const isAsExpected =
          expected[name] === 'waiting' ? typeof value !== 'number' : near(value, expected[name]!);
        expect(isAsExpected, `${name} in ${at}: ${value}, ${expected[name]}`).toBe(true);
      }
      for (const { name } of runResults(run.setup)) {
        for (const suffix of ['', 'Plain']) {
          const at = rangeNamed(run.plan, name + suffix);
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
      const asks = addInCells(sheet);
      for (const [at, cell] of Object.entries(sheet.cells)) {
        if (cell.formula === undefined || asks.has(at)) continue;
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

describe('sheets of every kind', () => {
  const BOOKS = {
    ...EXAMPLES,
    'wide comparison': wideComparison,
    'wide certificate': wideCertificate,
    example: readyExample,
  };

  it('are made of formulas that we can compute', () => {
    for (const [kind, make] of Object.entries(BOOKS)) {
      const book = make();
      const wrong = { error: '#GETTING_DATA' as '#N/A' };
      // Whatever is not computed keeps its stored value: one that no formula gives.
      const spoilt = {
        ...book,
        sheets: book.sheets.map((sheet) => ({
          ...sheet,
          cells: Object.fromEntries(
            Object.entries(sheet.cells).map(([at, cell]) => [
              at,
              cell.formula ? { ...cell, value: wrong } : cell,
            ]),
          ),
        })),
      };
      const left = calculateBook(spoilt).sheets.flatMap(({ name, cells }) =>
        Object.entries(cells).flatMap(([at, { value, formula }]) =>
          JSON.stringify(value) === JSON.stringify(wrong) ? [`${name} ${at} ${formula}`] : [],
        ),
      );
      expect(left, kind).toEqual([]);
    }
  });

  // The expected values are LibreOffice Calc's: it calculates every formula but those of the add-in.
  it('have in every cell what LibreOffice has', async () => {
    const books = Object.entries(BOOKS).map(([kind, make]) => ({ kind, book: make() }));
    const files = await Promise.all(books.map(({ book }) => writeXlsx(book, { cachedValues: false })));
    const theirs = await recalculate(files, 180_000);
    const differ: string[] = [];
    let compared = 0;
    books.forEach(({ kind, book }, i) => {
      book.sheets.forEach((sheet, k) => {
        const asks = addInCells(sheet);
        for (const [at, cell] of Object.entries(sheet.cells)) {
          if (cell.formula === undefined || asks.has(at)) continue;
          compared++;
          const came = theirs[i]!.sheets[k]!.cells[at]?.value ?? '';
          // The second reader takes a text in a cell with a date format for a broken date.
          if (Number.isNaN(came) && cell.value === 'not stated') continue;
          if (!near(came, cell.value))
            differ.push(
              `${kind} ${at} ${cell.formula}: ${JSON.stringify(came)} / ${JSON.stringify(cell.value)}`,
            );
        }
      });
    });
    expect(differ).toEqual([]);
    expect(compared).toBeGreaterThan(3000);
  }, 240_000);
});

function near(a: CellValue, b: CellValue): boolean {
  // Equal numbers taken from each other leave a rest of some 1e-17 in one program and none in the other.
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-9 * Math.abs(b) + 1e-15;
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
    // What is no number is wrong before the divisor is; so LibreOffice 7.4 too.
    ['="x"/0', { error: '#VALUE!' }],
    ['=INT(-1.5)', -2],
    ['=AND(1<=1,2<>3,NOT(FALSE))', true],
    ['=LIGHT.DRIFT(1000,985)', 985 / 1000 - 1],
  ])('%s', (formula, value) => {
    expect(evaluate(parse(formula)!, nothing)).toEqual(value);
  });

  it('COUNTIF for a number counts texts that read as it, and not among those above or below (LibreOffice 7.4)', () => {
    const cells = { range: () => [[5, '5', 'x', ' ', null, true]] as const, name: () => undefined };
    expect(evaluate(parse('=COUNTIF(A1:F1,5)')!, cells)).toBe(2);
    expect(evaluate(parse('=COUNTIF(A1:F1,">0")')!, cells)).toBe(1);
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
