import { beforeAll, describe, expect, it, vi } from 'vitest';
import { calculateAll } from '../../src/audit/formula/calculate';
import type { Book, BookSheet } from '../../src/sheets/book';
import type { BuiltSheet } from '../../src/sheets/built';
import type { CellName } from '../../src/sheets/names/all';
import { realize } from '../../src/sheets/realize';
import { writeXlsx } from '../../src/xlsx/write';
import { addInCells } from '../audit/addin';
import { createPaneHost } from '../excel/host';
import { rangeNamed } from '../sheets/named';
import { recalculate } from '../tools/libreoffice';
import { builtSet, setOf } from './built';
import { FULL, SMALL } from './examples';

const SERIALS = Array.from({ length: 30 }, (_, i) => `BIB-${String(i + 1).padStart(3, '0')}`);
const LOT = {
  serials: SERIALS,
  seed: '4 2 6 1',
  lot: 'Delivery 1 (invented)',
  drawnBy: 'A. Person (invented)',
};

describe('the sheets of a template', () => {
  it('are told before they are built, with what they are linked to', () => {
    const { steps, left } = setOf(FULL, LOT);
    expect(left).toEqual([]);
    expect(steps.map(({ label, links }) => (links ? `${label}: ${links}` : label))).toEqual([
      'Need of 1 room',
      'Offers, 4 lines to be filled in: asked figures linked to the need',
      'Run of Type 1 (invented) Bright: rated figures linked to the chosen offer',
      'Run of Type 2 (invented): rated figures linked to the chosen offer',
      'Comparison of 2 runs: linked to the runs',
      'Spot check of 2 units',
      'Batch of 30 units',
      // Lots of 26 to 50: letter D, AQL 2.5: 5 units (ISO 2859-1, tables 1 and 2-A).
      'Acceptance of 30 units, 5 drawn: limits linked to the chosen offer, results to the runs by serial number',
      'Ageing of Type 1 (invented) Bright',
      'Ageing of Type 2 (invented)',
      'Certificate of Type 1 (invented) Bright: linked to its run',
      'Certificate of Type 2 (invented): linked to its run',
      'Overview of the workbook: linked to every sheet',
    ]);
  });

  it('leave out what cannot be built yet, and say why', () => {
    const { steps, left } = setOf(FULL);
    expect(steps.some(({ key }) => key === 'acceptance')).toBe(false);
    expect(left).toEqual([
      'Acceptance: left out, since the serials of the lot are not given. Apply the template again, or draw the sample under New when the lot is there.',
    ]);
    expect(setOf(FULL, { ...LOT, seed: ' ' }).left[0]).toMatch(/the seed of the draw is not given/);
    expect(setOf(FULL, { ...LOT, serials: ['A', 'A'] }).left[0]).toMatch(/^Acceptance: left out\. .*A/);
    const [known, , ...none] = SMALL.rooms!;
    const dark = { room: 'Vault (invented)', width: 2, height: 1.25 };
    // A contrast of 50 is above what this projector has by itself: no light reaches it.
    const wish = {
      room: 'Hall (invented)',
      width: 2,
      height: 1.25,
      ambient: 5,
      contrast: 50,
      ownContrast: 40,
    };
    expect(setOf({ ...SMALL, rooms: [known!, dark, wish, ...none] }).left).toEqual([
      'Words for the tender: their figures leave out 2 of 3 rooms whose need cannot be computed: "Vault (invented)", "Hall (invented)".',
    ]);
    const three = {
      for: 'list',
      units: ['A', 'A', 'B'].map((projector, i) => ({ projector, serial: `${i}` })),
    } as const;
    expect(setOf({ ...SMALL, sheets: { runs: three, spot: {} } }).left).toEqual([
      'Spot check: takes 2 of 3 units, since it tells units apart by projector and mode and some are called alike.',
    ]);
    expect(setOf({ ...SMALL, rooms: [{ room: 'A', width: 1, height: 1 }] }).left).toEqual([
      'Words for the tender: left out, since no room has a need that can be computed yet.',
      'Comparison: left out, since it takes at least 2 runs.',
    ]);
  });

  it('a run for each unit of the drawn sample, linked into the lot by its serial', () => {
    const sheets = builtSet(
      setOf(
        {
          ...FULL,
          sheets: { offers: {}, runs: { for: 'sample', mode: 'Bright' }, acceptance: {}, overview: false },
        },
        LOT,
      ),
    );
    const runs = sheets.filter(({ plan }) => plan.kind === 'run');
    expect(runs).toHaveLength(5);
    const lot = sheets.at(-1)!.plan;
    const serials = runs.map(({ plan }) => plan.cells[at(plan, 'SerialNumber')]!.value);
    expect(new Set(serials).size).toBe(5);
    for (const serial of serials) expect(SERIALS).toContain(serial);
    const formulas = Object.values(lot.cells).flatMap(({ formula }) => formula ?? []);
    for (const { sheet } of runs)
      expect(formulas.some((formula) => formula.includes(`'${sheet}'!`) && formula.includes('EXACT'))).toBe(
        true,
      );
  });

  it('carry the label of the bid in their names, cut to what a program takes', () => {
    const names = builtSet(setOf(SMALL, { label: 'Bid 7' })).map(({ sheet }) => sheet);
    expect(names).toEqual([
      'Bid 7 Need',
      'Bid 7 Offers',
      'Bid 7 Run Reading room 3 (inven',
      'Bid 7 Run =1+1',
      'Bid 7 Comparison',
      'Bid 7 Overview',
    ]);
  });

  it('depend on the template and the answers alone, not on the hour or on chance', () => {
    const today = builtSet(setOf(FULL, LOT));
    const refuse = () => {
      throw new Error('asked for chance');
    };
    vi.spyOn(Math, 'random').mockImplementation(refuse);
    vi.spyOn(crypto, 'getRandomValues').mockImplementation(refuse);
    vi.useFakeTimers({ now: new Date('1999-12-31T23:59:59Z') });
    try {
      expect(builtSet(setOf(FULL, LOT))).toEqual(today);
    } finally {
      vi.useRealTimers();
      vi.restoreAllMocks();
    }
  });
});

const at = (plan: BuiltSheet['plan'], name: CellName) => rangeNamed(plan, name);

describe('a built set, recalculated by LibreOffice', () => {
  const typed = {
    offers: {
      Bidders: [['North (invented)'], ['South (invented)'], [undefined]],
      OfferWhite: [[11000], [9000], [undefined]],
      OfferColour: [[10800], [undefined], [undefined]],
      ChosenOffer: [['North (invented)']],
    },
  };
  const small = builtSet(setOf(SMALL), typed);
  const full = builtSet(setOf(FULL, LOT));
  let books: Book[];
  beforeAll(async () => {
    const files = [small, full].map(async (sheets) =>
      writeXlsx(
        { sheets: sheets.map(({ sheet, plan }) => realize(plan, sheet)), names: [] },
        { cachedValues: false },
      ),
    );
    books = await recalculate(await Promise.all(files));
  }, 150_000);
  const value = (book: Book, sheets: readonly BuiltSheet[], sheet: string, name: CellName) => {
    const i = sheets.findIndex((one) => one.sheet === sheet);
    return book.sheets[i]!.cells[at(sheets[i]!.plan, name)]?.value;
  };

  it('has no error but where a function of the add-in is missing', () => {
    const faults = [small, full].flatMap((sheets, b) =>
      sheets.flatMap(({ sheet, plan }, i) =>
        errorsOf(books[b]!.sheets[i]!, plan.cells).map((fault) => `${sheet} ${fault}`),
      ),
    );
    expect(faults).toEqual([]);
  });

  it('is calculated without a spreadsheet program to the same, wherever that is done', () => {
    const differ: string[] = [];
    let compared = 0;
    [small, full].forEach((sheets, b) => {
      calculateAll(sheets.map(({ sheet, plan }) => realize(plan, sheet))).forEach((sheet, i) => {
        const other = books[b]!.sheets[i]!;
        const asks = addInCells(sheet);
        for (const [at, { formula, value }] of Object.entries(sheet.cells)) {
          // A result that lacks its function there is an error, and so is what compares with it.
          if (formula === undefined || value === null || asks.has(at)) continue;
          compared++;
          const came = other.cells[at]?.value ?? '';
          // What compares a row with the function that fills the table says that it has none.
          if (came === 'plain formula only') continue;
          // The second reader takes a text in a cell with a date format for a broken date.
          if (Number.isNaN(came) && typeof value === 'string') continue;
          const isNear =
            typeof came === 'number' && typeof value === 'number'
              ? // What is left of equal numbers taken from each other is no difference.
                Math.abs(came - value) <= 1e-9 * Math.abs(value) + 1e-12
              : came === value;
          if (!isNear)
            differ.push(`${sheet.name} ${at} ${formula}: ${JSON.stringify(came)} / ${JSON.stringify(value)}`);
        }
      });
    });
    expect(differ).toEqual([]);
    expect(compared).toBeGreaterThan(2000);
  });

  it('asks the offers for the largest need, rounded up, by hand', () => {
    // Room 1: (15 − 1) × 50 lx × 2 m × 1.25 m ÷ (0.7 × 0.8) = 3125 lm.
    // Room 2: (50 − 1) × 20 lx × 3 m × 1.7 m ÷ (0.6 × 0.8) = 10 412.5 lm, the larger one; rounded up to 10 lm: 10 420.
    expect(value(books[0]!, small, 'Need', 'LargestWhite')).toBeCloseTo(10_412.5, 8);
    expect(value(books[0]!, small, 'Offers', 'AskedWhite')).toBe(10_420);
    expect(value(books[0]!, small, 'Offers', 'AskedColour')).toBe(10_420);
    const states = books[0]!.sheets[1]!.cells;
    const [first] = at(small[1]!.plan, 'OfferState').split(':');
    expect(states[first!]?.value).toBe('meets');
  });

  it('hands the chosen offer on to the runs, and says so where none is chosen', () => {
    expect(value(books[0]!, small, 'Run =1+1', 'RatedWhite')).toBe(11_000);
    expect(value(books[0]!, small, 'Run =1+1', 'RatedColour')).toBe(10_800);
    // 80 % of 11 000 lm.
    expect(value(books[0]!, small, 'Run =1+1', 'WhiteLimitPlain')).toBeCloseTo(8800, 9);
    const run = full.find(({ plan }) => plan.kind === 'run')!.sheet;
    expect(value(books[1]!, full, run, 'RatedWhite')).toBe('no figure yet');
    expect(value(books[1]!, full, run, 'WhiteLimitPlain')).toBe('no rated value');
  });

  it('lets no unit pass while its limit is not known', () => {
    const lot = full.find(({ plan }) => plan.kind === 'acceptance')!;
    const i = full.indexOf(lot);
    const decisions = cells(books[1]!.sheets[i]!, at(lot.plan, 'UnitDecision'));
    expect(new Set(decisions)).toEqual(new Set(['not drawn', 'limit is no number']));
  });

  it('lists every sheet in the overview, the room of a run too', () => {
    const sheet = books[0]!.sheets.at(-1)!;
    const plan = small.at(-1)!.plan;
    expect(cells(sheet, at(plan, 'SheetNames')).filter(Boolean)).toEqual(
      small.slice(0, -1).map((one) => one.sheet),
    );
    const line = cells(sheet, at(plan, 'SheetNames')).indexOf('Run =1+1');
    expect(cells(sheet, at(plan, 'Abouts'))[line]).toBe('=1+1');
  });
});

const cells = (sheet: BookSheet, range: string) => {
  const [first, last = first] = range.split(':');
  const column = first!.replace(/\d/g, '');
  const [from, to] = [first, last].map((one) => Number(one!.replace(/\D/g, '')));
  return Array.from(
    { length: to! - from! + 1 },
    (_, i) => sheet.cells[`${column}${from! + i}`]?.value ?? null,
  );
};

/** Cells with an error whose formula does not ask for a function of ours. */
function errorsOf(sheet: BookSheet, planned: BuiltSheet['plan']['cells']): string[] {
  return Object.entries(sheet.cells).flatMap(([address, { value }]) =>
    typeof value === 'object' && value !== null && !planned[address]?.formula?.includes('LIGHT.')
      ? [`${address} ${value.error} ${planned[address]?.formula}`]
      : [],
  );
}

it('in the embedded engine links follow the choice of an offer, a rename and a deletion', async () => {
  const { host, test } = await createPaneHost();
  const built = new Map<string, BuiltSheet>();
  const { steps } = setOf({
    ...SMALL,
    rooms: SMALL.rooms!.slice(0, 1),
    sheets: { need: {}, offers: { lines: 2 }, runs: { for: 'rooms', rated: 'chosen offer' } },
  });
  for (const [i, { key, make }] of steps.entries()) {
    const plan = make(built, `eng${i}`);
    built.set(key, { ...(await host.build(plan)), plan });
  }
  const settled = () => test.engine.calculation.settled();
  const cell = async (sheet: string, name: CellName) => (await host.read(sheet)).values[name]!.values[0]![0];
  const run = built.get('run0')!.sheet;
  await settled();
  expect(await cell('Offers', 'AskedWhite')).toBe(3130);
  expect(await cell(run, 'RatedWhite')).toBe('no figure yet');
  await host.writeCells('Offers', [
    { name: 'Bidders', row: 1, column: 0, value: '=North' },
    { name: 'OfferWhite', row: 1, column: 0, value: 3300 },
    { name: 'ChosenOffer', row: 0, column: 0, value: '=North' },
  ]);
  await test.run(async (context) => {
    context.workbook.worksheets.getItem('Offers').name = 'Bids, opened';
    await context.sync();
  });
  await settled();
  expect(await cell(run, 'RatedWhite')).toBe(3300);
  expect(await cell(run, 'RatedColour')).toBe('no figure yet');
  expect(await cell(run, 'WhiteLimit')).toBeCloseTo(2640, 8);
  await test.run(async (context) => {
    context.workbook.worksheets.getItem('Bids, opened').delete();
    await context.sync();
  });
  await settled();
  expect(await cell(run, 'RatedWhite')).toBe('sheet removed');
  expect(await cell(run, 'WhiteLimit')).toBe('no rated value');
  const states = (await host.read('Overview')).values.States!.values.flat();
  expect(states).toContain('removed');
});
