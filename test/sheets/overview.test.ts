import { describe, expect, it } from 'vitest';
import { acceptancePlan } from '../../src/sheets/acceptance';
import { drawLot } from '../../src/sheets/acceptance/setup';
import { cellsOf } from '../../src/sheets/address';
import { ageingPlan } from '../../src/sheets/ageing';
import { defaultAgeing } from '../../src/sheets/ageing/setup';
import { batchPlan } from '../../src/sheets/batch';
import { defaultBatchSetup } from '../../src/sheets/batch/setup';
import type { Book, BookSheet } from '../../src/sheets/book';
import { certificatePlan } from '../../src/sheets/certificate';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import { addressesOf } from '../../src/sheets/filled';
import { defaultRoom, needPlan } from '../../src/sheets/need';
import { offersPlan } from '../../src/sheets/offers';
import { isListed, type ListedSheet, lookedAt, overviewPlan, tell } from '../../src/sheets/overview';
import { type Plan, SHEET_KINDS } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { spotPlan } from '../../src/sheets/spot';
import { tokens } from '../../src/sheets/tokens';
import { writeXlsx } from '../../src/xlsx/write';
import { meterCheckOf } from '../audit/examples';
import { createPaneHost } from '../excel/host';
import { recalculate } from '../tools/libreoffice';
import { comparedRun } from './comparedruns';
import { rangeNamed } from './named';
import { filled, randomRun } from './randomrun';
import { SETUPS } from './setups';

const addresses = (plan: Plan) =>
  Object.fromEntries(Object.entries(addressesOf(plan)).map(([name, address]) => [name, { address }]));
const listed = (plan: Plan, sheet: string, isSealed = false): ListedSheet => ({
  sheet,
  kind: plan.kind,
  id: plan.id,
  isSealed,
  cells: addresses(plan),
});
const typed = (plan: Plan, name: string, values: readonly (string | number)[]): Plan => {
  const at = cellsOf(plan.names.find((one) => one.name === name)!.range);
  const cells = { ...plan.cells };
  values.forEach((value, i) => {
    cells[at[i]!] = { ...cells[at[i]!]!, value };
  });
  return { ...plan, cells };
};

/** One invented sheet of every kind, each as far as its name says. */
function everyKind(): Plan[] {
  const complete = { ...filled(randomRun(4)), title: 'Complete run' };
  const begun = typed({ ...runPlan(SETUPS['white-only']!, 'ru2'), title: "Anna's run" }, 'WhiteReadings', [
    812,
    805,
    'over',
    790,
  ]);
  const empty = { ...runPlan({ ...defaultRunSetup(), projector: '=1+1' }, 'ru3'), title: 'Run empty' };
  const need = needPlan(
    {
      rooms: [
        defaultRoom('Reading room 3 (invented)'),
        { ...defaultRoom('Hall (invented)'), ambient: undefined },
      ],
      spare: 2,
    },
    'ne1',
  );
  const offers = offersPlan(
    {
      asked: { white: 2500, colour: 2500 },
      use: { years: 5, hoursPerYear: 1000, tariff: 0.3, currency: 'EUR' },
      offers: [
        { bidder: 'North (invented)', white: 3000, colour: 2900 },
        { bidder: 'South (invented)', white: 2000, colour: 2900 },
      ],
      spare: 1,
    },
    'of1',
  );
  const comparison = comparisonPlan(
    [comparedRun(complete, complete.title), comparedRun(empty, empty.title)],
    DEFAULT_COMPARISON,
    'co1',
  );
  const lot = drawLot({
    lot: 'Delivery 1 (invented)',
    serials: Array.from({ length: 8 }, (_, i) => `BIB-${i + 1}`),
    aql: 2.5,
    seed: '4 2',
    drawnBy: 'A. Person (invented)',
    drawnOn: '2026-03-02',
    leastWhite: 2000,
    counting: 'value',
  });
  if (!comparison.ok || !lot.ok) throw new Error('These set-ups are sound');
  // Five of eight are drawn (letter A, AQL 2.5: arrow down to 5; ISO 2859-1, table 2-A).
  const acceptance = acceptancePlan(lot.value, 'ac1');
  const certificate = certificatePlan(
    {
      run: {
        sheet: complete.title,
        addresses: addressesOf(complete),
      },
      number: '1',
      issuedBy: '',
    },
    'ce1',
  );
  const ageing = ageingPlan(
    {
      ...defaultAgeing('Unit 4 (invented)'),
      points: [
        { hours: 0, output: 2000 },
        { hours: 500, output: 1900 },
      ],
    },
    'ag1',
  );
  const spot = spotPlan(
    {
      title: 'Spot check',
      units: ['A (invented)', 'B (invented)'],
      reference: 'first',
      ambient: false,
      place: '',
      measuredBy: '',
      date: '',
      meter: defaultRunSetup().meter,
    },
    'sp1',
  );
  const batch = typed(
    batchPlan(
      {
        ...defaultBatchSetup(),
        projector: 'Type 1 (invented)',
        title: 'one',
        units: [{ serial: 'B-1' }, { serial: 'B-2' }],
        lines: 3,
      },
      'ba1',
    ),
    'WhiteReadings',
    Array(9).fill(812),
  );
  return [
    need,
    offers,
    complete,
    begun,
    empty,
    comparison.value,
    spot,
    batch,
    acceptance,
    certificate,
    ageing,
  ];
}

/** States worked out by hand from what `everyKind` fills in. */
const STATES: Readonly<Record<string, string>> = {
  // One of two rooms has its ambient light.
  Need: 'in progress, 1 of 2',
  Offers: 'complete',
  'Complete run': 'complete',
  // Nine white readings and the last one; "over" is no number.
  "Anna's run": 'in progress, 3 of 10',
  'Run empty': 'empty',
  Comparison: 'in progress, 1 of 2',
  'Spot check Spot check': 'empty',
  // Nine readings of the first of two units, but no ambient light yet.
  'Batch one': 'empty',
  // Cut to Excel's 31 characters.
  'Acceptance Delivery 1 (invented': 'empty',
  'Certificate Complete run': 'complete',
  'Ageing Unit 4 (invented)': 'in progress, 2 of 3',
};

const GONE = [{ sheet: '=2+2', kind: 'run', id: 'zz9' }];
const plans = everyKind();
const names = bookOf(plans).sheets.map(({ name }) => name);
const overview = overviewPlan({ sheets: plans.map((plan, i) => listed(plan, names[i]!)), gone: GONE }, 'ov1');

/** What stands in a column of the overview, line by line. */
const column = (sheet: BookSheet, name: string, plan = overview) =>
  cellsOf(plan.names.find((one) => one.name === name)!.range).map((at) => sheet.cells[at]?.value ?? null);
const stateBySheet = (sheet: BookSheet, plan = overview) => {
  const states = column(sheet, 'States', plan);
  return Object.fromEntries(
    column(sheet, 'SheetNames', plan).flatMap((name, i) => (name ? [[String(name), states[i]]] : [])),
  );
};

describe('the overview sheet', () => {
  it('uses functions every spreadsheet program has had for ten years, and none of ours', () => {
    const calls = Object.values(overview.cells).flatMap(({ formula = '' }) =>
      tokens(formula).flatMap(({ kind, text }) => (kind === 'call' ? [text] : [])),
    );
    expect([...new Set(calls)].sort()).toEqual(
      'COUNT COUNTA COUNTIF IF INT ISERROR ISNUMBER LOG10 MAX N OR ROUND ROWS'.split(' ').sort(),
    );
  });

  it('knows every kind of sheet but lists, reports and itself', () => {
    expect(SHEET_KINDS.filter((kind) => !isListed(kind))).toEqual(['overview', 'findings', 'trace', 'log']);
  });

  it('looks at names that the sheets have: each of them on some sheet of its kind', () => {
    const runs = Object.values(SETUPS).map((setup) => runPlan({ ...setup, repeats: 5 }, 'r'));
    for (const kind of SHEET_KINDS) {
      const has = new Set(
        [...plans, ...runs, meterCheckOf({})]
          .filter((plan) => plan.kind === kind)
          .flatMap((plan) => Object.keys(addressesOf(plan))),
      );
      expect(
        lookedAt(kind).filter((name) => !has.has(name)),
        kind,
      ).toEqual([]);
    }
  });

  it('is one line where there is nothing yet', async () => {
    const none = overviewPlan({ sheets: [], gone: [] }, 'ov2');
    const [book] = await recalculate([await writeXlsx(bookOf([none]), { cachedValues: false })]);
    const { cells } = book!.sheets[0]!;
    expect(cells.A4?.value).toBe('0 sheets: 0 complete or sealed, 0 in progress, 0 empty');
    expect(cells.A7?.value).toBe('No sheet of ours yet.');
  });
});

describe('LibreOffice', () => {
  it('recalculates states as worked out by hand, and results of the sheets as they are reported', async () => {
    const book = bookOf([...plans, overview]);
    const [came] = await recalculate([await writeXlsx(book, { cachedValues: false })]);
    const sheet = came!.sheets.at(-1)!;
    expect(stateBySheet(sheet)).toEqual({ ...STATES, '=2+2': 'gone' });
    expect(errors(sheet)).toEqual([]);
    expect(sheet.cells.A4?.value).toBe('12 sheets: 3 complete or sealed, 4 in progress, 4 empty, 1 gone');
    // White light output, U and decision of the complete run, from its own sheet; U in two digits (GUM 7.2.6).
    const run = came!.sheets[2]!;
    const at = (name: string) => run.cells[rangeNamed(plans[2]!, name)]?.value;
    const line = column(sheet, 'SheetNames').indexOf('Complete run');
    expect([
      column(sheet, 'ResultValues')[line],
      column(sheet, 'ResultU')[line],
      column(sheet, 'Decisions')[line],
    ]).toEqual([2180, 130, at('WhiteVerdictPlain')]);
    // Regression: as LibreOffice computes them; that they are right is tested in recalculate.test.ts.
    expect(at('WhiteLightOutputPlain')).toBeCloseTo(2177.654, 3);
    expect(at('WhiteExpandedPlain')).toBeCloseTo(128.994, 3);
    const offers = column(sheet, 'SheetNames').indexOf('Offers');
    // South is short of white.
    expect([column(sheet, 'Abouts')[offers], column(sheet, 'ResultValues')[offers]]).toEqual(['2 offers', 1]);
    expect(column(sheet, 'Abouts')[column(sheet, 'SheetNames').indexOf('Run empty')]).toBe('=1+1');
  });

  it('says removed, and shows no error, where Excel has put #REF! for a deleted sheet', async () => {
    const book = bookOf([...plans, overview]);
    // ECMA-376 and Excel: a reference to a deleted sheet is stored as #REF!$A$1, or as #REF! alone.
    const lost = (formula: string) =>
      formula
        .replaceAll("'Complete run'!", '#REF!')
        .replace(/'Need'!\$[A-Z]+\$\d+(:\$[A-Z]+\$\d+)?/g, '#REF!');
    const [came] = await recalculate([await writeXlsx(withFormulas(book, lost), { cachedValues: false })]);
    const sheet = came!.sheets.at(-1)!;
    expect(errors(sheet)).toEqual([]);
    expect(stateBySheet(sheet)).toMatchObject({
      Need: 'removed',
      'Complete run': 'removed',
      Offers: 'complete',
    });
  });
});

/** Addresses of cells with an error. */
const errors = (sheet: BookSheet) =>
  Object.entries(sheet.cells).flatMap(([at, { value }]) =>
    typeof value === 'object' && value !== null ? [`${at} ${value.error}`] : [],
  );

/** The last sheet's formulas changed. */
function withFormulas({ sheets, ...rest }: Book, change: (formula: string) => string): Book {
  const last = sheets.at(-1)!;
  const cells = Object.fromEntries(
    Object.entries(last.cells).map(([at, cell]) => [
      at,
      cell.formula === undefined ? cell : { ...cell, formula: change(cell.formula) },
    ]),
  );
  return { ...rest, sheets: [...sheets.slice(0, -1), { ...last, cells }] };
}

it('in the embedded engine the pane tells what the sheet tells, and renames and deletions are followed', async () => {
  const { host, test } = await createPaneHost();
  const few = plans.filter(({ id }) => ['ne1', 'ru2', 'ru3'].includes(id));
  const built: string[] = [];
  for (const plan of few) built.push((await host.build(plan)).sheet);
  const own = overviewPlan({ sheets: few.map((plan, i) => listed(plan, built[i]!)), gone: [] }, 'ov3');
  const { sheet } = await host.build(own);
  await test.engine.calculation.settled();
  const states = async () => {
    const { values } = await host.read(sheet);
    const state = values.States!.values.flat();
    return Object.fromEntries(
      values.SheetNames!.values.flat().flatMap((name, i) => (name ? [[String(name), state[i]]] : [])),
    );
  };
  const told: Record<string, string> = {};
  for (const [i, plan] of few.entries()) {
    const { values } = await host.read(built[i]!);
    told[built[i]!] = tell({ ...listed(plan, built[i]!), cells: values }).state;
  }
  expect(await states()).toEqual(told);
  expect(told).toEqual(Object.fromEntries(built.map((name) => [name, STATES[name]])));
  await test.run(async (context) => {
    context.workbook.worksheets.getItem("Anna's run").name = 'Tuesday';
    context.workbook.worksheets.getItem('Run empty').delete();
    context.workbook.worksheets.getItem('Tuesday').getRange('A1').load('address');
    await context.sync();
  });
  await test.engine.calculation.settled();
  // The names are texts that the pane brings up to date; what is linked has followed already.
  expect(await states()).toMatchObject({ "Anna's run": 'in progress, 3 of 10', 'Run empty': 'removed' });
  const { values } = await host.read(sheet);
  expect(
    values.ResultValues!.values.flat().some((value) => typeof value === 'object' && value !== null),
  ).toBe(false);
});
