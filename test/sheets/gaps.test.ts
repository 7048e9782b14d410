import { afterAll, expect, it } from 'vitest';
import { calculate } from '../../src/audit/formula/calculate';
import type { BookSheet } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { runResults } from '../../src/sheets/run';
import { BUDGET_RESULT, budgetIds } from '../../src/sheets/run/budgetid';
import { uncertaintyResults } from '../../src/sheets/run/verdict';
import { amount } from '../tools/amount';
import { rangeNamed } from './named';
import { filled, type RandomRun, random, randomRun } from './randomrun';

/*
 * No missing cell gives a number. Which results a reading goes into is not asked of the sheet: a result that another
 * number there would change must be none when nothing, or no number, stands there, and so must its doubt and decision.
 * The doubt alone may go on: white's rests on its own mismatch and scatter as long as blue is not whole.
 * Random runs, one gap each.
 */
const RUNS = amount(6, 1000);
/** What people leave behind where a number should stand. */
const NOTHING = [null, 'over', '-', ' '] as const;

/** What the run says with something else in one cell of what was typed. */
function sheetWith(run: RandomRun, name: string, at: number, value: number | string | null): BookSheet {
  const rows = run.typed[name]!;
  const columns = rows[0]!.length;
  const changed = rows.map((row, r) => row.map((each, c) => (r * columns + c === at ? value : each)));
  const typed = { ...run.typed, [name]: changed as (number | string)[][] };
  return calculate(bookOf([filled({ ...run, typed })]).sheets[0]!);
}

const told = { gaps: 0, results: 0 };
afterAll(() => console.info(`${told.gaps} gaps left ${told.results} results without a number`));

it('a result that a reading goes into is no number while the reading is missing', () => {
  const wrong: string[] = [];
  for (let seed = 1; seed <= RUNS; seed++) {
    const run = randomRun(seed);
    const draw = random(seed + 70_000);
    const pick = <T>(from: readonly T[]): T => from[Math.floor(draw() * from.length)]!;
    // The closing reading may be left out: without it the budget takes no drift, and says so.
    const name = pick(Object.keys(run.typed).filter((each) => !each.startsWith('Last')));
    const flat = run.typed[name]!.flat() as number[];
    const at = Math.floor(draw() * flat.length);
    const gap = pick(NOTHING);
    const full = calculate(bookOf([filled(run)]).sheets[0]!);
    const other = sheetWith(run, name, at, flat[at]! * 1.5 + 0.1);
    const missing = sheetWith(run, name, at, gap);
    told.gaps++;
    const plain = (result: string, sheet: BookSheet) =>
      sheet.cells[rangeNamed(run.plan, `${result}Plain`)]!.value;
    const goesInto = (result: string) => {
      const [was, is] = [plain(result, full), plain(result, other)];
      return typeof was === 'number' && was !== is;
    };
    const values = runResults(run.setup).filter(({ name: result }) => goesInto(result));
    const doubts = uncertaintyResults(run.setup).filter(({ name: result }) => {
      // A limit is what was asked for, whatever was measured.
      if (result.endsWith('Limit')) return false;
      const id = budgetIds(run.setup)
        .filter((each) => result.startsWith(each))
        .sort((one, two) => two.length - one.length)[0]!;
      return goesInto(BUDGET_RESULT[id].name);
    });
    for (const { name: result } of [...values, ...doubts]) {
      for (const suffix of ['', 'Plain']) {
        const now = missing.cells[rangeNamed(run.plan, result + suffix)]!.value;
        told.results++;
        if (typeof now === 'number')
          wrong.push(`run ${seed}, ${name} ${at + 1} “${gap}”: ${result}${suffix} ${now}`);
      }
    }
  }
  expect(wrong).toEqual([]);
  expect(told.results).toBeGreaterThan(RUNS);
}, 7_200_000);
