import { describe, expect, it } from 'vitest';
import { BATCH_READINGS, type BatchReadings, countOf } from '../../src/procurement/batch/columns';
import { addressOf, cellName, cellsOf, rectOf } from '../../src/sheets/address';
import { batchPlan } from '../../src/sheets/batch';
import { BATCH_AMBIENTS, type BatchSetup } from '../../src/sheets/batch/setup';
import type { CellValue } from '../../src/sheets/book';
import { moveFormula } from '../../src/sheets/move';
import { identityFormula, parseIdentity } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { styleOf } from '../../src/sheets/style';
import { tokens } from '../../src/sheets/tokens';
import { writeXlsx } from '../../src/xlsx/write';
import { recalculate } from '../tools/libreoffice';
import { batchSetup, byFunction, column, gridIn, rangeOf, typed } from './batchcases';
import { random } from './randomrun';

const ROWS = 60;

/** A batch with invented readings, gaps, over range, slips of the hand and lines nobody has begun. */
function randomBatch(readings: BatchReadings, seed: number) {
  const draw = random(seed);
  const setup: BatchSetup = batchSetup({
    readings,
    ambient: BATCH_AMBIENTS[seed % 3]!,
    meter: {
      ...batchSetup().meter,
      unit: seed % 2 === 0 ? 'lx' : 'fc',
      calibration: 1.02,
      corrections: { white: 1, red: 1.04, green: 0.98, blue: 1.11 },
    },
    stated: seed % 4 === 1 ? { white: 0.09, colour: 0.12 } : {},
    reference: { unit: 'K-0100', white: 900, colour: 850, whiteOutput: 2150, colourOutput: 2000 },
    uncertainty: {
      ...batchSetup().uncertainty,
      rule: (['guard band U: four outcomes', 'guard band U: pass or fail', 'no guard band'] as const)[
        seed % 3
      ]!,
      ofReading: 0.03,
      digits: 2,
    },
    units: Array.from({ length: ROWS - 5 }, (_, i) => ({ serial: i === 7 ? '' : `S-${i}` })),
    lines: ROWS,
  });
  const shares = [1, 0.22, 0.68, 0.08];
  const cell = (i: number): CellValue | undefined => {
    const field = Math.floor(i / (countOf(readings) > 4 ? 9 : 1));
    const chance = draw();
    if (chance < 0.002) return 'over';
    if (chance < 0.0025) return 'dim';
    if (chance < 0.003) return 'off';
    if (chance < 0.004) return -5;
    if (chance < 0.006) return undefined;
    return Math.round((60 + 40 * draw()) * shares[field]! * 100) / 100;
  };
  const rows = Array.from({ length: ROWS - 3 }, (_, r) =>
    Array.from({ length: countOf(readings) }, (_, i) => (r > ROWS - 7 ? undefined : cell(i))),
  );
  // One row too bright for any projector, one darker than the room.
  rows[3] = rows[3]!.map(() => 199_999);
  rows[4] = rows[4]!.map((_, i) => (i === 0 ? 0.01 : 50));
  const plan = typed(batchPlan(setup, `b${seed}`), {
    Readings: rows,
    RangeFactors: Array.from({ length: ROWS }, (_, i) => [i === 11 ? null : i % 9 === 0 ? 100 : undefined]),
    ...(setup.ambient === 'once' ? { AmbientReadings: [[3]] } : {}),
    ...(setup.ambient === 'by row'
      ? { AmbientReadings: Array.from({ length: ROWS }, (_, i) => [i === 13 ? undefined : 1 + (i % 4)]) }
      : {}),
  });
  return { plan, setup };
}

describe('plain formulas', () => {
  it('LibreOffice recalculates every row of 12 batches to what the function says', async () => {
    const batches = BATCH_READINGS.flatMap((readings, i) =>
      [0, 1, 2].map((k) => randomBatch(readings, 3 * i + k)),
    );
    const books = await recalculate(
      await Promise.all(batches.map(({ plan }) => writeXlsx(bookOf([plan]), { cachedValues: false }))),
      240_000,
    );
    const differences: string[] = [];
    const states = new Set<string>();
    batches.forEach(({ plan, setup }, i) => {
      const own = byFunction(books[i]!, plan);
      const first = column(books[i]!, plan, 'UnitState');
      const { row, column: at } = rectOf(plan.names.find(({ name }) => name === 'UnitState')!.range);
      own.forEach((line, r) => {
        states.add(String(line[0]).replace(/\d+/g, 'n'));
        line.forEach((want, c) => {
          const came = books[i]!.sheets[0]!.cells[cellName(row + r, at + c)]?.value ?? '';
          const isSame =
            typeof want === 'number'
              ? typeof came === 'number' && Math.abs(came - want) <= 1e-9 * Math.abs(want)
              : came === want;
          if (!isSame)
            differences.push(
              `${setup.readings} ${i}, row ${r + 1}, ${c}: ${JSON.stringify(came)} for ${want}`,
            );
        });
      });
      expect(first.filter((state) => state === 'complete').length).toBeGreaterThan(20);
    });
    expect(differences).toEqual([]);
    // Each thing that can be wrong with a row was there.
    for (const state of [
      '',
      'complete',
      'no serial number',
      'no range factor',
      'no ambient reading',
      'above n n lx',
      'ambient exceeds a reading',
      'n over range; n of n',
      'n not a reading; n of n',
      'n of n',
    ])
      expect(states, state).toContain(state);
  }, 300_000);
});

describe('the sheet', () => {
  const plans = BATCH_READINGS.flatMap((readings) =>
    BATCH_AMBIENTS.map((ambient) => batchPlan(batchSetup({ readings, ambient, lines: 3 }), 'batch1')),
  );

  const long = batchPlan(batchSetup({ lines: 450, ambient: 'by row' }), 'batch3');

  it('hands every line to one call of the function, none to more, and never more than 200', () => {
    const columns = ['Serials', 'Readings', 'RangeFactors', 'AmbientLux'];
    const calls = Object.entries(long.cells).flatMap(([at, { formula = '' }]) => {
      const [, given] = /^=LIGHT\.BATCH\((.*)\)$/.exec(formula) ?? [];
      return given === undefined ? [] : [{ at, ranges: given.split(',').slice(0, columns.length) }];
    });
    expect(calls.map(({ at }) => rectOf(at).row)).toEqual([6, 206, 406]);
    columns.forEach((name, i) => {
      const handed = calls.map(({ ranges }) => rectOf(ranges[i]!));
      expect(handed.map(({ rows }) => rows)).toEqual([200, 200, 50]);
      expect(handed.flatMap((rect) => cellsOf(addressOf(rect)))).toEqual(cellsOf(rangeOf(long, name)));
    });
  });

  it('asks in every line whether the call for its own block gave anything', () => {
    for (const [at, { formula = '' }] of Object.entries(long.cells)) {
      const [, anchor] = /ISERROR\(\$[A-Z]+\$(\d+)\)/.exec(formula) ?? [];
      if (anchor) expect(Number(anchor), at).toBe(7 + 200 * Math.floor((rectOf(at).row - 6) / 200));
    }
  });

  it.each(['centre white', 'centre in each colour'] as const)(
    'says of %s that it is no lumens',
    (readings) => {
      const { cells, fills } = batchPlan(batchSetup({ readings, lines: 2 }), 'batch2');
      expect(cells.A2!.formula).toContain('no figure is in lumens unless marked as an estimate');
      const table = rectOf(fills![0]!);
      const units = Object.entries(cells).flatMap(([at, { role, value }]) =>
        role === 'unit' && rectOf(at).row < table.row ? [String(value)] : [],
      );
      expect(units.length).toBeGreaterThan(3);
      expect(units.filter((unit) => /\blm\b/.test(unit) && unit !== 'lm, estimate')).toEqual([]);
    },
  );

  it('repeats the first row of each block all the way down, so that it can be copied', () => {
    const blocks = [...plans, long].flatMap((plan) => plan.fills!.map((fill) => ({ plan, fill })));
    for (const { plan, fill } of blocks) {
      const { row, column: left, rows, columns } = rectOf(fill);
      for (let c = left; c < left + columns; c++) {
        const [first, second] = [plan.cells[cellName(row, c)]!, plan.cells[cellName(row + 1, c)]!];
        for (let r = row + 1; r < row + rows; r++) {
          const cell = plan.cells[cellName(r, c)]!;
          expect([cell.role, cell.format]).toEqual([first.role, first.format]);
          if (second.formula === undefined) expect(cell.formula).toBeUndefined();
          else expect(cell.formula).toBe(moveFormula(first.formula!, r - row, 0));
        }
      }
    }
  });

  it('refers to its own names and cells', () => {
    for (const plan of plans) {
      const known = new Set(plan.names.map(({ name }) => name));
      for (const [at, { formula }] of Object.entries(plan.cells)) {
        if (!formula) continue;
        for (const { kind, text } of tokens(formula)) {
          if (kind === 'word') expect(known, `${at}: ${text}`).toContain(text);
          if (kind === 'cell') expect(plan.cells[text.replace(/\$/g, '')], `${at}: ${text}`).toBeDefined();
        }
        expect(formula.length, at).toBeLessThan(8192);
      }
    }
  });

  it('plain formulas refer to no function of ours, nor to a cell that holds one', () => {
    for (const plan of plans) {
      const ours = new Set(
        Object.entries(plan.cells).flatMap(([at, { formula }]) => (formula?.includes('LIGHT.') ? [at] : [])),
      );
      const named = new Map<string, string[]>(plan.names.map(({ name, range }) => [name, cellsOf(range)]));
      for (const [at, { formula, role }] of Object.entries(plan.cells)) {
        // Checks compare the two, and may.
        if (!formula || ours.has(at) || formula.includes('ISERROR(')) continue;
        for (const { kind, text } of tokens(formula)) {
          const cells = kind === 'word' ? named.get(text)! : kind === 'cell' ? [text.replace(/\$/g, '')] : [];
          for (const cell of cells) expect(ours.has(cell), `${at} (${role}) uses ${text}`).toBe(false);
        }
      }
    }
  });

  it('lets people into input cells only, and each has its question', () => {
    for (const plan of plans) {
      const asked = new Set(plan.validations.flatMap(({ range }) => cellsOf(range)));
      const covered = new Set(plan.merges.flatMap((range) => cellsOf(range).slice(1)));
      for (const [at, { role, format }] of Object.entries(plan.cells)) {
        const isInput = ['input', 'choice', 'reading', 'factor', 'words'].includes(role);
        expect(styleOf({ role, format }).locked === false, at).toBe(isInput);
        if (isInput && !covered.has(at)) expect(asked, at).toContain(at);
      }
    }
  });

  it('is known again by its hidden mark', () => {
    expect(parseIdentity(identityFormula(plans[0]!))).toEqual({
      kind: 'batch',
      version: plans[0]!.version,
      id: 'batch1',
    });
  });

  it('refuses fewer lines than units, and more than fit', () => {
    expect(() => batchPlan(batchSetup({ lines: 3, units: batchSetup().units }), 'b1')).toThrow(
      /6 units and 3 lines/,
    );
    expect(() => batchPlan(batchSetup({ lines: 5001, units: [] }), 'b1')).toThrow(/1 to 5000 lines/);
  });
});

/*
 * Worked by hand, row by row: 2 m × 1.25 m = 2.5 m², 2 lx of ambient light, the × 10 range; limit 0.8 × 2300 = 1840 lm;
 * U = 8 % as stated. Nine equal readings of 82.6 give (826 − 2) × 2.5 = 2060 lm, U 164.8 lm, and so on.
 */
describe('rows worked by hand', () => {
  const nine = (value: number) => Array<number>(9).fill(value);
  const WORKED = [
    // mean 83: (830 − 2) × 2.5 = 2070; 2070 − 165.6 = 1904.4 ≥ 1840; min ÷ max 788 ÷ 898
    { readings: [80, 84, 82, 86, 90, 84, 80, 82, 79], white: 2070, decision: 'pass', uniformity: 788 / 898 },
    // (760 − 2) × 2.5 = 1895 ≥ 1840, but less than 1840 + 151.6
    { readings: nine(76), white: 1895, decision: 'conditional pass', uniformity: 1 },
    // (720 − 2) × 2.5 = 1795 < 1840, but at least 1840 − 143.6
    { readings: nine(72), white: 1795, decision: 'conditional fail', uniformity: 1 },
    // (600 − 2) × 2.5 = 1495 < 1840 − 119.6
    { readings: nine(60), white: 1495, decision: 'fail', uniformity: 1 },
  ];

  it('come out of LibreOffice', async () => {
    const plan = typed(batchPlan(batchSetup(), 'b1'), {
      AmbientReadings: [[2]],
      AmbientRange: [[1]],
      WhiteReadings: WORKED.map(({ readings }) => readings),
    });
    const [book] = await recalculate([await writeXlsx(bookOf([plan]), { cachedValues: false })]);
    const results = (name: string) => column(book!, plan, name);
    WORKED.forEach(({ white, decision, uniformity }, i) => {
      expect(results('UnitWhite')[i]).toBeCloseTo(white, 9);
      expect(results('UnitWhiteU')[i]).toBeCloseTo(0.08 * white, 9);
      expect(results('UnitUniformity')[i]).toBeCloseTo(uniformity, 12);
      expect(results('UnitDecision')[i]).toBe(decision);
    });
    expect(results('UnitWhite')[4]).toBe('0 of 9');
    const count = (name: string) => results(name)[0];
    expect(['UnitsListed', 'UnitsComplete', 'UnitsPassing', 'UnitsFailing'].map(count)).toEqual([6, 4, 1, 1]);
    expect(gridIn(book!, plan, 'Limits')).toEqual([[1840]]);
    expect(book!.sheets[0]!.cells.A3!.value).toBe(
      '4 of 6 units complete: 1 pass, 1 conditional pass, 1 conditional fail, 1 fail.',
    );
  });
});
