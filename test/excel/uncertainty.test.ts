import { beforeAll, describe, expect, it } from 'vitest';
import type { Host } from '../../src/excel/host';
import type { RunInput } from '../../src/metrology/run/input';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import type { CellName } from '../../src/sheets/names/all';
import { runPlan } from '../../src/sheets/run';
import type { BudgetId } from '../../src/sheets/run/budgetid';
import { runInputOf } from '../../src/sheets/run/input';
import { BY_HAND, HAND_SETUP, HAND_TYPED } from '../sheets/byhand';
import { comparedRun, runWith } from '../sheets/comparedruns';
import { filled, type RandomRun, randomRun } from '../sheets/randomrun';
import { runInput } from '../sheets/runinput';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

let host: Host;
let test: TestHost;
/** A workbook of one's own: the engine looks at every sheet that is there whenever one changes. */
async function start(): Promise<void> {
  ({ host, test } = await createPaneHost());
}

async function build(run: RandomRun): Promise<string> {
  const { sheet } = await host.build(filled({ ...run, plan: runPlan(run.setup, 'r1') }));
  await test.engine.calculation.settled();
  return sheet;
}
async function read(sheet: string) {
  await test.engine.calculation.settled();
  return (await host.read(sheet)).values;
}
const common = () => {
  const { setup } = randomRun(3);
  return {
    meter: setup.meter,
    image: { shape: 'rectangle', known: 'width', length: 1.92, unit: 'm', across: 16, down: 10 } as const,
    uncertainty: { ...setup.uncertainty, ofReading: 0.03, digits: 2, square: 0.004 },
  };
};

/*
 * Domain 5 and the issue: with one meter, u(colour ÷ white) is free of the meter's common gain and of the image
 * area. Here on a real run sheet in the embedded engine, by typing into its cells.
 */
describe('a shared cause, in the tool', () => {
  it.each([
    ['the meter, ± 10 % of reading', 'MeterOfReading', 0.1] as const,
    ['the image’s area, ± 10 %', 'SquareHalf', 0.1] as const,
  ])('%s: the lumens’ U moves, the ratio’s does not', async (_, name, half) => {
    await start();
    const sheet = await build(runWith(3, common()));
    const before = await read(sheet);
    await host.write(sheet, name, [[half]]);
    const after = await read(sheet);
    const u = (values: typeof before, id: BudgetId) => values[`${id}Expanded`]!.values[0]![0] as number;
    for (const id of ['White', 'Colour'] as const) {
      expect(u(after, id)).toBeGreaterThan(1.5 * u(before, id));
      // A rectangle of ± 10 % alone is u = 0.1 y ÷ √3 (GUM 4.3.7), and U at least 1.95 times that.
      const value = after[`${id}LightOutput`]!.values[0]![0] as number;
      expect(u(after, id)).toBeGreaterThan((1.95 * 0.1 * value) / Math.sqrt(3));
    }
    expect(u(after, 'Ratio')).toBeCloseTo(u(before, 'Ratio'), 12);
  });
});

describe('uniformity, contrasts and luminance of a run worked by hand', () => {
  const run = { setup: HAND_SETUP, plan: runPlan(HAND_SETUP, 'hand1'), typed: HAND_TYPED };
  let sheet: string;
  let values: Awaited<ReturnType<typeof read>>;
  beforeAll(async () => {
    await start();
    sheet = await build(run);
    values = await read(sheet);
  }, 120_000);
  const number = (name: CellName) => values[name]!.values[0]![0] as number;

  it.each(BY_HAND)('$id: every part of the budget, cause by cause, and U', ({ id, name, value, squares }) => {
    expect(number(`${name}Plain`)).toBeCloseTo(value, 9);
    const parts = values[`${id}Parts`]!.values.flat() as number[];
    expect(parts).toHaveLength(squares.length);
    parts.forEach((part, i) => {
      expect(part ** 2, String(values[`${id}Components`]!.values[i])).toBeCloseTo(squares[i]!, 9);
    });
    const u = Math.sqrt(squares.reduce((sum, square) => sum + square, 0));
    expect(number(`${id}U`) / u).toBeCloseTo(1, 9);
    // Student's t of very many degrees of freedom at 95.45 % (NIST TN 1297, table B.1: 2.000).
    expect(number(`${id}Expanded`) / u).toBeCloseTo(2, 3);
    expect(number(`${id}ExpandedPlain`) / number(`${id}Expanded`)).toBeCloseTo(1, 8);
  });

  it('agrees with its functions, line by line', () => {
    for (const name of ['Agreement', 'DecisionAgreement'] as const)
      expect(new Set(values[name]!.values.flat().filter((words) => words !== 'waiting'))).toEqual(
        new Set(['agree']),
      );
  });

  it('names the darkest and the brightest point, and what of the linear model is to be trusted', async () => {
    const { cells } = (await test.workbench.toBook()).sheets.find(({ name }) => name === sheet)!;
    /** The number in the row of a label. */
    const told = (label: string) => {
      const row = /\d+/.exec(Object.keys(cells).find((at) => cells[at]!.value === label)!)![0];
      return Object.keys(cells)
        .filter((at) => /\d+/.exec(at)![0] === row)
        .map((at) => cells[at]!.value)
        .find((value) => typeof value === 'number');
    };
    expect(['Darkest of nine', 'Brightest of nine', 'Others near to one of the two'].map(told)).toEqual([
      1, 9, 0,
    ]);
    const trust = (id: 'Uniformity' | 'Contrast' | 'Board') => String(values[`${id}Trust`]!.values[0]![0]);
    expect(trust('Uniformity')).toMatch(/^Near linear/);
    // u is 23 and 41 of 100: a rectangle's worth of black's own size.
    expect(trust('Contrast')).toMatch(/^U is rough: one standard uncertainty is 23 % of the contrast/);
    expect(trust('Board')).toMatch(/^U is rough: one standard uncertainty is 41 %/);
  });

  it('keeps the meter’s common gain out of all but the luminance: ± 10 % move no quotient', async () => {
    await host.write(sheet, 'MeterOfReading', [[0.1]]);
    const after = await read(sheet);
    const expanded = (of: typeof values, id: BudgetId) => of[`${id}Expanded`]!.values[0]![0] as number;
    for (const id of ['Uniformity', 'Contrast', 'Board'] as const)
      expect(expanded(after, id)).toBeCloseTo(expanded(values, id), 12);
    expect(expanded(after, 'Luminance')).toBeGreaterThan(1.2 * expanded(values, 'Luminance'));
  });

  it('has no U where black is too dark for the meter, and says so', async () => {
    await host.write(sheet, 'BlackReadings', [
      [1, 1, 1],
      [1, 1, 1],
      [1, 1, 1],
    ]);
    const dark = await read(sheet);
    // By hand: u² = 4/3 + (0.25/3 + 0.0001 · 3)/9 + 0.0001/9 + 0.000425/3 + 9/3 = 4.343; 900 ÷ (1 + 2 · 2.084) = 174.1.
    expect(dark.SequentialContrast!.values[0]![0]).toBe('at least 174');
    expect(dark.ContrastExpanded!.values[0]![0]).toBe('no U of a bound');
    expect(String(dark.ContrastTrust!.values[0]![0])).toMatch(/^No budget: black is too dark/);
    expect(dark.ContrastParts!.values.flat()).toEqual(Array(12).fill(null));
  });
});

describe('a run sheet as the model takes it', () => {
  it.each([3, 8])('is what was typed, sheet and all (run %d)', async (seed) => {
    await start();
    const run = randomRun(seed);
    const input = runInputOf(await read(await build(run)));
    if (!input.ok) throw new Error(input.problems.map(({ message }) => message).join(' '));
    const { image, ...typed } = runInput(run);
    const { width, height, widthHalf, heightHalf, squareHalf, isOneLength } = image;
    const expected = { ...typed, image: { width, height, widthHalf, heightHalf, squareHalf, isOneLength } };
    expect(rounded(input.value.input)).toEqual(rounded(expected));
  });
});

/** The engine keeps twelve digits; what is not there and what is undefined are one. */
function rounded(input: RunInput): unknown {
  return JSON.parse(
    JSON.stringify({ others: [], ...input }, (_, value) =>
      typeof value === 'number' ? Number(value.toPrecision(10)) : value,
    ),
  );
}

describe('a comparison in the embedded engine', () => {
  it('agrees with its custom function and follows the numbers of the meters', async () => {
    await start();
    const runs = [8, 11, 14].map((seed) => runWith(seed, common()));
    const sheets: string[] = [];
    for (const run of runs) sheets.push(await build(run));
    const compared = runs.map(({ plan }, i) => comparedRun(plan, sheets[i]!));
    const plan = comparisonPlan(compared, DEFAULT_COMPARISON, 'cmp1');
    if (!plan.ok) throw new Error('No comparison');
    const { sheet } = await host.build(plan.value);
    const values = await read(sheet);
    for (const id of ['White', 'Colour', 'Ratio', 'Luminance', 'Uniformity'] as const)
      expect([id, values[`${id}Agreement`]!.values[0]![0]]).toEqual([id, 'agree']);
    const u = (of: typeof values) => of.WhitePairU!.values.flat() as number[];
    expect(u(values).every((n) => typeof n === 'number' && n > 0)).toBe(true);
    // Another meter for the third run: its pairs become less sure, the first pair stays.
    await host.write(sheet, 'MeterCodes', [[1, 1, 2]]);
    const apart = await read(sheet);
    expect(u(apart)[0]).toBeCloseTo(u(values)[0]!, 9);
    expect(u(apart)[1]).toBeGreaterThan(u(values)[1]!);
    expect(apart.WhiteAgreement!.values[0]![0]).toBe('agree');
  }, 180_000);
});
