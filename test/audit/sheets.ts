import { calculate } from '../../src/audit/formula/calculate';
import { cellsOf } from '../../src/sheets/address';
import type { Book, BookSheet } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { filled, randomRun } from '../sheets/randomrun';
import { kept } from '../tools/kept';

/** A book of run sheets with invented readings, calculated. The set-ups differ from seed to seed. */
export const measured = kept((...seeds: number[]): Book => {
  const book = bookOf(seeds.map((seed) => filled(randomRun(seed))));
  return { ...book, sheets: book.sheets.map(calculate) };
});

/** The book with one sheet changed. */
export function withSheet(book: Book, at: number, change: (sheet: BookSheet) => BookSheet): Book {
  return { ...book, sheets: book.sheets.map((sheet, i) => (i === at ? change(sheet) : sheet)) };
}

/** The smallest run sheet: white only, ambient once, no black; invented readings, a result that passes. */
export const smallest = kept((): Book => {
  const base = defaultRunSetup();
  const plan = runPlan(
    {
      ...base,
      projector: 'Unit 9 (invented)',
      colour: 'none',
      black: false,
      rated: { white: 900, minimumFraction: 0.8 },
    },
    'small',
  );
  const cells = { ...plan.cells };
  const type = (name: string, values: readonly number[]) => {
    const range = plan.names.find((each) => each.name === name)!.range;
    cellsOf(range).forEach((at, i) => {
      cells[at] = { ...cells[at]!, value: values[i]! };
    });
  };
  type('WhiteReadings', [611, 655, 604, 702, 741, 699, 590, 640, 598]);
  type('AmbientReadings', [2]);
  type('LastReading', [739]);
  const book = bookOf([{ ...plan, cells }]);
  return { ...book, sheets: book.sheets.map(calculate) };
});
