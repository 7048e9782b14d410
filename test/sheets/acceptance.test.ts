import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { judge, type Verdict } from '../../src/metrology/decision';
import { CODE_LETTERS, INSPECTION_LEVELS } from '../../src/procurement/lot/letter';
import { AQLS, SEVERITIES } from '../../src/procurement/lot/master';
import { samplingPlan } from '../../src/procurement/lot/plan';
import { acceptProbability } from '../../src/procurement/lot/probability';
import { COUNTINGS, type Counting, lotVerdict } from '../../src/procurement/lot/verdict';
import { acceptancePlan } from '../../src/sheets/acceptance';
import { type DrawnLot, drawLot, type LotSetup } from '../../src/sheets/acceptance/setup';
import { cellsOf } from '../../src/sheets/address';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import type { Plan } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { writeXlsx } from '../../src/xlsx/write';
import { createPaneHost } from '../excel/host';
import { goodOf, problemsOf } from '../photometry/outcome';
import { count } from '../procurement/count';
import { LOT_PROBABILITIES } from '../references/lots';
import { CODE_LETTER_TABLE, SINGLE_SAMPLING } from '../references/singlesampling';
import { recalculate } from '../tools/libreoffice';
import { random } from './randomrun';

/** An invented lot of a regional library network. */
const lot = (size: number, rest: Partial<LotSetup> = {}): LotSetup => ({
  lot: `Delivery of ${size} (invented)`,
  serials: Array.from({ length: size }, (_, i) => `BIB-${String(i + 1).padStart(4, '0')}`),
  aql: 2.5,
  seed: '4 2 6 1',
  drawnBy: 'A. Person (invented)',
  drawnOn: '2026-03-02',
  leastWhite: 2000,
  counting: 'value',
  ...rest,
});

function drawn(setup: LotSetup): DrawnLot {
  const outcome = drawLot(setup);
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(({ message }) => message).join(' '));
}

interface Measured {
  readonly white: number;
  readonly whiteU?: number;
  readonly colour: number;
  readonly colourU?: number;
}

/** A plan with results typed for some of its units. */
function filled(setup: DrawnLot, results: ReadonlyMap<string, Measured>, id: string): Plan {
  const plan = acceptancePlan(setup, id);
  const cells = { ...plan.cells };
  for (const [name, pick] of [
    ['UnitWhite', 'white'],
    ['UnitWhiteU', 'whiteU'],
    ['UnitColour', 'colour'],
    ['UnitColourU', 'colourU'],
  ] as const) {
    cellsNamed(plan, name).forEach((at, i) => {
      const value = results.get(setup.serials[i]!)?.[pick];
      if (value !== undefined) cells[at] = { ...cells[at]!, value };
    });
  }
  return { ...plan, cells };
}

const cellsNamed = (plan: Plan, name: CellName) => cellsOf(plan.names.find((n) => n.name === name)!.range);

/** Random results for the whole draw, part of it, and for units that were not drawn. */
function results(setup: DrawnLot, seed: number): Map<string, Measured> {
  const draw = random(seed);
  const part = draw() < 0.5 ? 1 : 0.6;
  const units = setup.draw.drawn.filter(() => draw() < part).map(({ serial }) => serial);
  const spread = draw() < 0.5 ? 60 : 400;
  const one = () => Math.round(2150 + (draw() - 0.5) * spread * 2);
  const u = () => (draw() < 0.8 ? Math.round(40 + draw() * 120) : undefined);
  const others = setup.serials.slice(0, 2);
  return new Map(
    [...others, ...units].map((serial) => {
      const [whiteU, colourU] = [u(), u()];
      return [
        serial,
        { white: one(), colour: one(), ...(whiteU ? { whiteU } : {}), ...(colourU ? { colourU } : {}) },
      ];
    }),
  );
}

/** The decision on one figure by the pure room; by the value alone where no U is known. */
function decided(value: number, expanded: number | undefined, least: number | undefined): Verdict | '' {
  if (least === undefined) return '';
  if (expanded === undefined) return value >= least ? 'pass' : 'fail';
  const outcome = judge({ value, expanded }, { lower: least });
  if (!outcome.ok) throw new Error('These results are sound');
  return outcome.value.verdict;
}

function expected(setup: DrawnLot, measured: ReadonlyMap<string, Measured>) {
  const verdicts = setup.draw.drawn.flatMap(({ serial }) => {
    const one = measured.get(serial);
    if (!one) return [];
    const both = [
      decided(one.white, one.whiteU, setup.leastWhite),
      decided(one.colour, one.colourU, setup.leastColour),
    ].filter((verdict) => verdict !== '');
    return [{ serial, both }];
  });
  const isBad = (both: Verdict[]) => both.some((one) => count([one], setup.counting).nonconforming > 0);
  const failures = verdicts.filter(({ both }) => isBad(both)).map(({ serial }) => serial);
  const counts = { inspected: verdicts.length, nonconforming: failures.length };
  const verdict = lotVerdict({ ...setup.plan, accept: setup.plan.reject - 1 }, counts);
  return { ...counts, failures: failures.sort(), verdict: verdict.ok ? verdict.value.state : '' };
}

const LOTS: DrawnLot[] = [
  lot(2, { aql: 6.5 }),
  lot(8),
  lot(14, { aql: 1 }),
  lot(60),
  lot(60, { leastColour: 1950, counting: 'strict' }),
  lot(90, { aql: 6.5, counting: 'lenient' }),
  lot(151, { aql: 4, leastColour: 2100 }),
  lot(281, { aql: 6.5, counting: 'strict' }),
  lot(500, { aql: 0.65 }),
  // Between acceptance and rejection number a lot under reduced inspection is accepted.
  lot(60, { aql: 10, level: 'III', severity: 'reduced', counting: 'lenient' }),
  lot(281, { aql: 10, level: 'III' }),
  lot(52, { aql: 4, level: 'I', severity: 'tightened' }),
  lot(40, { aql: 0.01, level: 'S-4' }),
].map(drawn);
const MEASURED = LOTS.map((setup, i) => results(setup, 100 + i));
const plans = LOTS.map((setup, i) => filled(setup, MEASURED[i]!, `l${i}`));

const PLAN_CELLS = [
  'CodeLetter',
  'SampleSize',
  'AcceptNumber',
  'RejectNumber',
  'InspectionLevel',
  'Severity',
] as const;

function expectSheet(get: (name: CellName) => CellValue[], i: number): void {
  const [setup, measured] = [LOTS[i]!, MEASURED[i]!];
  const { plan } = setup;
  const want = expected(setup, measured);
  expect(PLAN_CELLS.map((name) => get(name)[0])).toEqual([
    plan.letter,
    plan.sampleSize,
    plan.accept,
    plan.reject,
    plan.level,
    plan.severity,
  ]);
  expect([get('Inspected')[0], get('Nonconforming')[0], get('LotVerdict')[0]], setup.lot).toEqual([
    want.inspected,
    want.nonconforming,
    want.verdict,
  ]);
  const failures = get('Failures').filter((cell) => cell !== null && cell !== '');
  expect(failures.map(String), setup.lot).toEqual(want.failures.slice(0, failures.length));
  expect(failures.length).toBe(Math.min(want.failures.length, 10));
  get('CurveNonconforming').forEach((D, k) => {
    if (typeof D !== 'number') return;
    const exact = acceptProbability({ ...plan, accept: plan.reject - 1 }, D);
    if (!exact.ok) throw new Error('This point is sound');
    const came = get('CurveProbability')[k] as number;
    expect(Math.abs(came - exact.value), `${setup.lot} ${D}`).toBeLessThan(1e-9);
  });
}

it('LibreOffice recalculates plan, counts, verdict, failures and curve to what the domain gives', async () => {
  const [book] = await recalculate([await writeXlsx(bookOf(plans), { cachedValues: false })]);
  for (const [i, plan] of plans.entries()) {
    const { cells } = book!.sheets[i]!;
    expectSheet((name) => cellsNamed(plan, name).map((at) => cells[at]?.value ?? null), i);
    // Without the functions nothing is known of the draw: that must not read as a difference.
    expect(cells[cellsNamed(plan, 'DrawRepeated')[0]!]?.value).toBe('needs the functions');
  }
  const verdicts = LOTS.map((setup, i) => expected(setup, MEASURED[i]!).verdict);
  expect(new Set(verdicts)).toEqual(new Set(['accepted', 'rejected', 'not finished']));
  expect(new Set(LOTS.map(({ counting }) => counting))).toEqual(new Set<Counting>(COUNTINGS));
});

it('functions and plain formulas agree in the embedded engine, and the draw comes out again', async () => {
  const { host, test } = await createPaneHost();
  for (const i of [0, 4, 9, 11]) {
    const { sheet } = await host.build(plans[i]!);
    await test.engine.calculation.settled();
    const { values } = await host.read(sheet);
    expectSheet((name) => values[name]!.values.flat(), i);
    const words = (['Agreement', 'CurveAgreement'] as const).flatMap((name) =>
      values[name]!.values.flat().filter((cell) => cell !== null && cell !== ''),
    );
    expect(new Set(words)).toEqual(new Set(['agree']));
    expect(values.DrawRepeated!.values).toEqual([['the same']]);
  }
});

it('a drawn serial that is exchanged shows', async () => {
  const { host, test } = await createPaneHost();
  const setup = LOTS[1]!;
  const { sheet } = await host.build(acceptancePlan(setup, 'x'));
  const place = setup.serials.indexOf(setup.draw.drawn[1]!.serial);
  const exchanged = setup.serials.map((_, i) => [i === place ? 'BIB-9999' : null]);
  await host.write(sheet, 'Serials', exchanged);
  await test.engine.calculation.settled();
  expect((await host.read(sheet)).values.DrawRepeated!.values).toEqual([['differs']]);
});

it.each([
  [3, 'normal', 'II'],
  [9, 'reduced', 'III'],
  [11, 'tightened', 'I'],
] as const)('the looked-up plans are those of the printed standard: %s, %s %s', (i, severity, level) => {
  const plan = plans[i]!;
  const grid = (name: CellName) => cellsNamed(plan, name).map((at) => plan.cells[at]!.value);
  const [lots, letters, aqls] = (['LotsFrom', 'LotLetters', 'AqlRows'] as const).map(grid);
  const tables = (['PlanSizes', 'PlanAccepts', 'PlanRejects'] as const).map(grid);
  // Those that count units: ISO 2859-1 has 16 up to 10 %.
  expect(aqls).toEqual(AQLS.slice(0, 16));
  lots!.forEach((lot, c) => {
    const range = CODE_LETTER_TABLE.findIndex(([largest]) => Number(lot) <= largest);
    const letter = CODE_LETTER_TABLE[range]![1].split(' ')[INSPECTION_LEVELS.indexOf(level)]!;
    expect(letters![c], `lots from ${lot}`).toBe(letter);
    // One line a letter, one cell an AQL, see the reference.
    const printed = SINGLE_SAMPLING[severity][CODE_LETTERS.indexOf(letter as 'A')]!.split(' ');
    aqls!.forEach((aql, r) => {
      const found = tables.map((table) => table[r * lots!.length + c]).join(',');
      expect(found, `${letter} ${aql}`).toBe(printed[r]);
    });
  });
});

it('every lot that a sheet lists has a plan that can reject it, or is refused in words', () => {
  let most = 0;
  for (const level of INSPECTION_LEVELS)
    for (const severity of SEVERITIES)
      for (const aql of AQLS.slice(0, 16))
        for (const size of [2, 3, 5, 8, 9, 15, 16, 25, 26, 50, 51, 90, 91, 150, 151, 280, 281, 500]) {
          const { reject, sampleSize } = goodOf(samplingPlan(size, aql, { level, severity }));
          most = Math.max(most, reject - 1);
          if (reject <= sampleSize) continue;
          const [problem] = problemsOf(drawLot(lot(size, { aql, level, severity })));
          expect(problem!.message, `${size} ${aql} ${level} ${severity}`).toMatch(
            /no lot of this size is ever/,
          );
        }
  // As many terms as the plain curve has, and one for none.
  expect(most).toBe(14);
});

it('the curve of a lot of 50 passes through published points', async () => {
  // Sample 13, at most 1: lot of 50 at AQL 4 (MIL-STD-105E). Probabilities by scipy 1.17.1, see the reference.
  const plan = acceptancePlan(drawn(lot(50, { aql: 4 })), 'p');
  const [book] = await recalculate([await writeXlsx(bookOf([plan]), { cachedValues: false })]);
  const column = (name: CellName) =>
    cellsNamed(plan, name).map((at) => book!.sheets[0]!.cells[at]?.value as number);
  const [D, P] = [column('CurveNonconforming'), column('CurveProbability')];
  const points = LOT_PROBABILITIES.filter(([N, n, c, d]) => N === 50 && n === 13 && c === 1 && D.includes(d));
  expect(points.length).toBeGreaterThan(0);
  for (const [, , , d, printed] of points) expect(P[D.indexOf(d)]!.toFixed(6)).toBe(printed);
});

it('tickets are SHA-256 of seed, line feed and serial, as another implementation computes it', () => {
  const plan = plans[3]!;
  const tickets = cellsNamed(plan, 'Tickets').map((at) => plan.cells[at]!.value);
  LOTS[3]!.serials.forEach((serial, i) => {
    if (tickets[i] === undefined) return;
    expect(tickets[i]).toBe(createHash('sha256').update(`4 2 6 1\n${serial}`).digest('hex'));
  });
  expect(tickets.filter(Boolean).length).toBe(LOTS[3]!.plan.sampleSize);
});

it('says when list and plan do not fit, and when the words are for another plan', async () => {
  const setup = drawn(lot(8));
  const plan = acceptancePlan(setup, 'q');
  const struck = cellsNamed(plan, 'Serials')[0]!;
  const { value: _, ...blank } = plan.cells[struck]!;
  const odd = [
    { ...plan, cells: { ...plan.cells, [struck]: blank } },
    {
      ...plan,
      cells: { ...plan.cells, [cellsNamed(plan, 'Aql')[0]!]: { role: 'input' as const, value: 3 } },
    },
  ];
  const [book] = await recalculate([await writeXlsx(bookOf(odd), { cachedValues: false })]);
  const cell = (sheet: number, name: CellName) =>
    book!.sheets[sheet]!.cells[cellsNamed(plan, name)[0]!]?.value;
  expect(cell(0, 'WordsFit')).toMatch(/another plan/);
  expect(cell(1, 'LotVerdict')).toBe('no such AQL');
  expect(cell(1, 'SampleSize')).toBe('no such AQL');
});
