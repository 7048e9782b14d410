import { describe, expect, it } from 'vitest';
import { checkSheet } from '../../src/audit/check/check';
import { expectedOf } from '../../src/audit/expected';
import { calculateBook } from '../../src/audit/formula/calculate';
import { viewOf } from '../../src/audit/view';
import { BATCH_READINGS, countOf, isCentre } from '../../src/procurement/batch/columns';
import { cellsOf } from '../../src/sheets/address';
import { batchPlan } from '../../src/sheets/batch';
import { BATCH_AMBIENTS, type BatchSetup } from '../../src/sheets/batch/setup';
import type { Book, BookCell } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { batchSetup, typed } from '../sheets/batchcases';
import { batch } from './examples';
import { recomputeBatch } from './oracle/batch';
import { withSheet } from './sheets';

/* Units, places and readings are invented. */

const cellsNamed = (book: Book, name: string) =>
  cellsOf(viewOf(book.sheets[0]!).places.get(name.toLowerCase())!.address);
const change = (book: Book, cells: Readonly<Record<string, BookCell>>) =>
  withSheet(book, 0, (sheet) => ({ ...sheet, cells: { ...sheet.cells, ...cells } }));
const alarms = (book: Book) =>
  checkSheet(viewOf(book.sheets[0]!), book).filter(({ severity }) => severity !== 'note');

/** What the calculator gives for every line whose readings are all 80, at × 10, with 3 lx of ambient light. */
function flat(units: number): Book {
  const setup = { ...batchSetup({ lines: units }), lines: units };
  const rows = Array.from({ length: units }, () => Array.from({ length: 9 }, () => 80));
  const plan = typed(batchPlan(setup, 'flat1'), {
    Readings: rows,
    AmbientReadings: [[3]],
    AmbientRange: [[1]],
  });
  return calculateBook(bookOf([plan]));
}

it('a lone 1 among large readings is asked about, for a cell makes 1 of a display’s “1.”', () => {
  const book = flat(3);
  const [, second] = cellsNamed(book, 'Readings');
  const odd = calculateBook(change(book, { [second!]: { ...book.sheets[0]!.cells[second!]!, value: 1 } }));
  expect(checkSheet(viewOf(odd.sheets[0]!), odd)).toMatchObject([
    {
      at: second,
      severity: 'note',
      message:
        'White: the reading is 1. The others are about 80, and on many meters a lone 1 means over range: then type over, choose a higher range and read again.',
    },
  ]);
});

describe('a table that a function fills', () => {
  // By hand: (80 × 10 lx − 3 lx) × 2 m × 1.25 m = 1992.5 lm; 8 % of it 159.4 lm; limit 0.8 × 2300 lm = 1840 lm:
  // 1992.5 − 159.4 = 1833.1 lies below the limit, so that with a guard band of U the pass is conditional.
  it('is calculated into the cells beside its own', () => {
    const book = flat(3);
    const { cells } = book.sheets[0]!;
    const table = cellsNamed(book, 'FunctionTable').map((at) => cells[at]!.value);
    expect(table).toHaveLength(15);
    for (let i = 0; i < 3; i++) {
      const [state, white, U, uniformity, decision] = table.slice(5 * i, 5 * i + 5);
      expect([state, uniformity, decision]).toEqual(['complete', 1, 'conditional pass']);
      expect(white).toBeCloseTo(1992.5, 9);
      expect(U).toBeCloseTo(159.4, 9);
    }
    expect(cellsNamed(book, 'Agreement').map((at) => cells[at]!.value)).toEqual(['agree', 'agree', 'agree']);
  });

  it('is calculated anew into the same cells', () => {
    const book = flat(3);
    const [first] = cellsNamed(book, 'Readings');
    const again = calculateBook(change(book, { [first!]: { ...book.sheets[0]!.cells[first!]!, value: 89 } }));
    const [, white] = cellsNamed(again, 'FunctionTable');
    // By hand: the mean of nine is 81, (810 − 3) × 2.5 = 2017.5 lm.
    expect(again.sheets[0]!.cells[white!]!.value).toBeCloseTo(2017.5, 9);
  });

  // As Excel says it: a cell in the way of a dynamic array makes it #SPILL! (Microsoft, "How to correct a #SPILL! error").
  it('fills nothing where a formula stands in the way, and the check names that cell', () => {
    const book = flat(3);
    const at = cellsNamed(book, 'FunctionTable')[6]!;
    const spoilt = calculateBook(
      change(book, { [at]: { ...book.sheets[0]!.cells[at]!, formula: '=1992.5' } }),
    );
    const anchor = cellsNamed(book, 'FunctionTable')[0]!;
    expect(spoilt.sheets[0]!.cells[anchor]).toMatchObject({ value: { error: '#SPILL!' } });
    expect(spoilt.sheets[0]!.cells[anchor]!.spill).toBeUndefined();
    expect(alarms(spoilt).map((finding) => finding.at)).toEqual(expect.arrayContaining([at, anchor]));
  });
});

describe('more readings than 5000', () => {
  const book = flat(600);
  const { cells } = book.sheets[0]!;

  it('are calculated, and the check is quiet', () => {
    expect(cellsNamed(book, 'Readings')).toHaveLength(5400);
    expect(cells[cellsNamed(book, 'FunctionTable').at(-4)!]!.value).toBeCloseTo(1992.5, 9);
    expect(alarms(book)).toEqual([]);
  });

  it('are read to the last line: an altered result, a lost rule and a typed value that its rule refuses are found', () => {
    const result = cellsNamed(book, 'FunctionTable').at(-4)!;
    const reading = cellsNamed(book, 'Readings').at(-1)!;
    const spoilt = change(book, {
      [result]: { ...cells[result]!, value: 1992.6 },
      [reading]: { ...cells[reading]!, value: 'eighty' },
    });
    expect(alarms(spoilt).map(({ at }) => at)).toEqual(expect.arrayContaining([result, reading]));
    const range = viewOf(book.sheets[0]!).places.get('readings')!.address;
    const bare = withSheet(book, 0, (sheet) => ({
      ...sheet,
      validations: sheet.validations.filter((rule) => rule.range !== range),
    }));
    expect(alarms(bare)).toMatchObject([{ at: range, kind: 'validation' }]);
  });
});

/** Everything typed that the budget may rest on; none of it the cautious value. */
const KNOWN: BatchSetup['uncertainty'] = {
  ...batchSetup().uncertainty,
  meterClass: 'A',
  digits: 4,
  ofReading: 0.03,
  statement: 'certificate U with k = 2',
  f1: 0.02,
  f2: 0.025,
  light: 'lamp',
  placing: 0.02,
  linearity: 0.006,
  room: 0.005,
  throwDistance: 2.6,
  sensorHeight: 22,
  repeatability: 0.006,
  repeatabilityReadings: 12,
  // Blue is left to f1′.
  spectral: { white: 0.012, red: 0.05, green: 0.015 },
  width: 6,
  height: 4,
  square: 0.004,
  other: 0.003,
  ambient: 0.6,
  level: 0.95,
};

const CASES = BATCH_READINGS.flatMap((readings) =>
  BATCH_AMBIENTS.flatMap((ambient) =>
    (['assumed', 'known', 'stated'] as const).map((what) => ({ readings, ambient, what })),
  ),
);

it.each(CASES)(
  'rows are worked out again from what was typed, as function and plain formula have them: $readings, ambient $ambient, U $what',
  ({ readings, ambient, what }) => {
    const base = batchSetup({ lines: 3 });
    const isOdd = what === 'known';
    const setup: BatchSetup = {
      ...base,
      readings,
      ambient,
      lines: 4,
      stated: what === 'stated' ? { white: 0.08, colour: 0.09 } : {},
      uncertainty: isOdd ? KNOWN : base.uncertainty,
      meter: isOdd
        ? {
            ...base.meter,
            unit: 'fc',
            digit: 0.1,
            range: 1,
            calibration: 1.02,
            corrections: { white: 1.01, red: 0.97, green: 1.02, blue: 1.1 },
          }
        : base.meter,
      image: isOdd
        ? {
            shape: 'four sides',
            unit: 'm',
            top: 2,
            right: 1.25,
            bottom: 2.02,
            left: 1.26,
            falling: 2.36,
            rising: 2.37,
          }
        : base.image,
      reference: { unit: 'K-0001', white: 800, colour: 640, whiteOutput: 1900 },
    };
    const count = countOf(readings);
    const points = isCentre(readings) ? 1 : 9;
    const level = [80, 17, 46, 9];
    const row = (unit: number) =>
      Array.from({ length: count }, (_, i) => level[Math.floor(i / points)]! + unit + 0.3 * (i % points));
    const lacking = row(2).map((value, i) => (i === 0 ? 'over' : value));
    const plan = typed(batchPlan(setup, 'again1'), {
      Readings: [row(0), row(1), lacking],
      ...(ambient === 'by row' ? { AmbientReadings: [[0.2], [0.3], [0.2]] } : {}),
      ...(ambient === 'once' ? { AmbientReadings: [[2]], AmbientRange: [[1]] } : {}),
    });
    // Nothing is calculated in the first: there is nothing but what was typed.
    const bare = bookOf([plan]);
    const view = viewOf(bare.sheets[0]!);
    const expected = expectedOf(view, bare);
    if (!expected.known) throw new Error(expected.why);
    const { shape } = setup.image;
    const own = recomputeBatch(view, expected.plan, { readings, ambient, shape, lines: setup.lines });
    const book = calculateBook(bare);
    let numbers = 0;
    for (const [at, outcome] of own) {
      const came = book.sheets[0]!.cells[at]!.value;
      const value = outcome.ok ? outcome.value : outcome.problems;
      if (typeof came !== 'number') {
        expect(value, at).toBe(came ?? '');
        continue;
      }
      numbers++;
      expect(Math.abs(Number(value) - came), `${at}: ${value}, ${came}`).toBeLessThanOrEqual(
        1e-9 * Math.abs(came),
      );
    }
    expect(numbers).toBeGreaterThan(10);
    expect(alarms(book)).toEqual([]);
  },
);

it('is still known with any one of its names lost', () => {
  const book = batch();
  const { names } = book.sheets[0]!;
  for (const { name } of names.filter((each) => !each.hidden)) {
    const bare = withSheet(book, 0, (sheet) => ({
      ...sheet,
      names: sheet.names.filter((each) => each.name !== name),
    }));
    const lost = alarms(bare).filter(
      ({ kind }) => kind === 'name' || kind === 'formula' || kind === 'version',
    );
    expect(lost, name).toMatchObject([{ kind: 'name' }]);
  }
});
