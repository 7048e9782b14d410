import { calculateBook } from '../../src/audit/formula/calculate';
import { viewOf } from '../../src/audit/view';
import { tender } from '../../src/procurement/wording/tender';
import { acceptancePlan } from '../../src/sheets/acceptance';
import { type LineCells, lineOfRun, linkedCells } from '../../src/sheets/acceptance/links';
import { drawLot } from '../../src/sheets/acceptance/setup';
import { cellsOf } from '../../src/sheets/address';
import { ageingPlan } from '../../src/sheets/ageing';
import { defaultAgeing } from '../../src/sheets/ageing/setup';
import { batchPlan } from '../../src/sheets/batch';
import type { BatchSetup } from '../../src/sheets/batch/setup';
import type { Book } from '../../src/sheets/book';
import { certificatePlan } from '../../src/sheets/certificate';
import { type ComparedRun, comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import { exampleBook } from '../../src/sheets/example';
import { addressesOf, withFormulas } from '../../src/sheets/filled';
import { defaultMeterCheck, meterCheckPlan } from '../../src/sheets/metercheck';
import { defaultRoom, needPlan } from '../../src/sheets/need';
import { offersPlan } from '../../src/sheets/offers';
import { type GoneSheet, type ListedSheet, lookedAt, overviewPlan } from '../../src/sheets/overview';
import type { Plan } from '../../src/sheets/plan';
import { bookOf, realize } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { type SpotSetup, spotPlan } from '../../src/sheets/spot';
import { batchSetup, typed as typedRows } from '../sheets/batchcases';
import { comparedRun } from '../sheets/comparedruns';
import { filled, randomRun } from '../sheets/randomrun';
import { kept } from '../tools/kept';

/*
 * One workbook for each kind of sheet, filled in and calculated; the sheet in question comes last. Rooms, bidders,
 * units and readings are invented.
 */

/** A plan with values typed into its named cells, row by row; `undefined` leaves a cell as it is. */
export function typed(
  plan: Plan,
  values: Readonly<Record<string, readonly (string | number | undefined)[]>>,
): Plan {
  const cells = { ...plan.cells };
  for (const [name, list] of Object.entries(values)) {
    const range = plan.names.find((each) => each.name === name)!.range;
    cellsOf(range).forEach((at, i) => {
      const value = list[i];
      if (value !== undefined) cells[at] = { ...cells[at]!, value };
    });
  }
  return { ...plan, cells };
}

const book = (...plans: Plan[]): Book => calculateBook(bookOf(plans));

function must<T>(
  outcome: { ok: true; value: T } | { ok: false; problems: readonly { message: string }[] },
): T {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(({ message }) => message).join(' '));
}

/** The smallest run sheet: white only, ambient once, no black; a result that passes. */
export function smallRun(id: string, projector: string, more = 0): Plan {
  const base = defaultRunSetup();
  const plan = runPlan(
    { ...base, projector, colour: 'none', black: false, rated: { white: 900, minimumFraction: 0.8 } },
    id,
  );
  return typed(plan, {
    WhiteReadings: [611, 655, 604, 702, 741, 699, 590, 640, 598].map((lux) => lux + more),
    AmbientReadings: [2],
    LastReading: [739 + more],
  });
}

function need(): Book {
  const words = tender({
    white: 3210,
    colour: 3210,
    standard: 'ISO/IEC 21118:2020, Annex B',
    fraction: 0.8,
    rule: 'no guard band',
  });
  const rooms = [
    { ...defaultRoom('Reading room north'), ambient: 35, luminance: 90 },
    { ...defaultRoom('Reading room south'), width: 2.6, height: 1.6, ownContrast: 900, contrast: 22 },
  ];
  return book(needPlan({ rooms, spare: 1, wording: must(words) }, 'need1'));
}

export function offers(): Book {
  const offer = {
    standard: 'ISO/IEC 21118',
    currency: 'EUR',
    power: 260,
    sourceLife: 3000,
    sourcePrice: 120,
    warranty: 3,
  };
  const list = [
    { ...offer, bidder: 'Offer one', white: 3100, colour: 2900, price: 840 },
    { ...offer, bidder: '=1+1', white: 2500, colour: 2400, price: 610 },
    { ...offer, bidder: 'Offer three', white: 3000, price: 700, currency: 'SEK' },
  ];
  const use = { years: 5, hoursPerYear: 1600, tariff: 0.31, currency: 'eur ' };
  return book(offersPlan({ asked: { white: 2610, colour: 2400 }, use, offers: list, spare: 1 }, 'offers1'));
}

function spot(setup: Partial<SpotSetup> = {}): Book {
  const plan = spotPlan(
    {
      title: 'three branches',
      units: ['Branch A', 'Branch B', 'Branch C'],
      reference: 'best',
      seed: '4 2 6',
      ambient: true,
      place: 'Workshop',
      measuredBy: 'R. Invented',
      date: '2026-11-25',
      meter: { ...defaultRunSetup().meter, name: 'Meter 1', digit: 0.1 },
      ...setup,
    },
    'spot1',
  );
  return book(
    typed(plan, {
      ...(setup.ambient === false ? {} : { AmbientReadings: [2] }),
      WhiteReadings: [202, 182, 22.2],
      WhiteRange: [1, 1, 10],
      RedReadings: [42, 38, 41],
      GreenReadings: [122, 112, 113],
      BlueReadings: [22, 20, 21],
    }),
  );
}

/** The same without a draw and without ambient light. */
const undrawn = (): Book => spot({ seed: undefined, ambient: false, reference: 'first' });

/** Readings of an invented meter: its higher range reads 0.5 % more, and it loses a little at low levels. */
export const METER_CHECK_READINGS = {
  DistanceHalf: [2],
  NearDistance: [1],
  FarDistance: [2],
  SourceDiameter: [60],
  SensorDiameter: [20],
  RepeatReadings: [812, 813, 811, 812, 812, 814, 811, 812, 813, 812],
  PlacedReadings: [812, 806, 815, 809, 818, 811, 805, 814, 812, 808],
  LowReadings: [1812, 1811, 1813, 1812, 1812],
  HighReadings: [182, 182, 183, 182, 182],
  NearReadings: [1604, 1603, 1605, 1604, 1606],
  NearHidden: [3, 3, 4, 3, 3],
  FarReadings: [401, 402, 401, 400, 402],
  FarHidden: [2, 2, 2, 2, 2],
  DarkReadings: [1, 0, 1, 1, 1],
  FirstReadings: [312, 311, 312, 313, 312],
  SecondReadings: [988, 989, 988, 987, 988],
  ThirdReadings: [121, 121, 120, 121, 121],
  AllReadings: [142, 142, 141, 142, 142],
  AllRange: [10, 10, 10, 10, 10],
} as const;

/** A check with all its parts read, or with some. */
export const meterCheckOf = (readings: Readonly<Record<string, readonly number[]>>, id = 'check1'): Plan =>
  typed(
    meterCheckPlan(
      {
        ...defaultMeterCheck(),
        place: 'Workshop',
        measuredBy: 'R. Invented',
        date: '2026-11-20',
        light: 'Lamp on a rail (invented)',
        meter: { name: 'LM 7', unit: 'lx', digit: 1, range: 1, nextRange: 10 },
      },
      id,
    ),
    readings,
  );

function ageing(): Book {
  const points = [
    { hours: 0, output: 3010, expanded: 120, date: '2024-03-01', remark: 'Run 1' },
    { hours: 700, output: 2890, date: '2024-09-02' },
    { hours: 1500, output: 2745, date: '2025-03-04' },
    { hours: 2300, output: 2660, date: '2025-09-01' },
    { hours: 3050, output: 2514, date: '2026-03-02' },
  ];
  return book(ageingPlan({ ...defaultAgeing('Reading room unit'), needed: 2000, points }, 'age1'));
}

export function acceptance(): Book {
  const serials = Array.from({ length: 9 }, (_, i) => `BIB-${String(i + 1).padStart(4, '0')}`);
  const drawn = must(
    drawLot({
      lot: 'Delivery of 9',
      serials,
      aql: 6.5,
      seed: '4 2 6 1',
      drawnBy: 'A. Person',
      drawnOn: '2026-03-02',
      leastWhite: 2000,
      leastColour: 1800,
      counting: 'value',
    }),
  );
  // The unit drawn first is linked to its run sheet, which has no colour; the others are typed.
  const first = serials.indexOf(drawn.draw.drawn[0]!.serial);
  const results = serials.map((serial, i) =>
    i !== first && drawn.draw.drawn.some((one) => one.serial === serial)
      ? [2150 - 60 * i, 90, 1990 + 5 * i, 85]
      : [],
  );
  const plan = typed(acceptancePlan(drawn, 'lot1'), {
    UnitWhite: results.map(([white]) => white),
    UnitWhiteU: results.map(([, u]) => u),
    UnitColour: results.map(([, , colour]) => colour),
    UnitColourU: results.map(([, , , u]) => u),
  });
  const run = typed(smallRun('small1', 'Unit 1'), { SerialNumber: [serials[first]!] });
  const link = { sheet: bookOf([run]).sheets[0]!.name, addresses: addressesOf(run) };
  const lines = new Map([[first, (at: LineCells) => lineOfRun(link, at)]]);
  return book(run, withFormulas(plan, linkedCells(addressesOf(plan), lines)));
}

/** Sheets of several kinds and the overview of them all. */
function overview(gone: readonly GoneSheet[] = []): Book {
  const plans = [smallRun('small1', 'Unit 1'), runPlan(defaultRunSetup(), 'empty1')];
  const others = [need(), ageing()].map((one) => one.sheets.at(-1)!);
  const { sheets } = bookOf(plans);
  const listed = [...sheets, ...others].map((sheet): ListedSheet => {
    const { identity, places } = viewOf(sheet);
    const cells = lookedAt(identity!.kind).flatMap((name) => {
      const place = places.get(name.toLowerCase());
      return place ? [[name, { address: place.address }] as const] : [];
    });
    return { ...identity!, sheet: sheet.name, isSealed: false, cells: Object.fromEntries(cells) };
  });
  const own = realize(overviewPlan({ sheets: listed, gone }, 'over1'));
  return calculateBook({ sheets: [...sheets, ...others, own], names: [] });
}

/** A comparison of some runs; their sheets come first. */
function compared(runs: readonly Plan[], more: Partial<ComparedRun> = {}): Book {
  const { sheets } = bookOf(runs);
  const columns = runs.map((plan, i) => ({ ...comparedRun(plan, sheets[i]!.name), ...more }));
  return book(...runs, must(comparisonPlan(columns, DEFAULT_COMPARISON, 'cmp1')));
}

export const comparison = (): Book =>
  compared([smallRun('small1', 'Unit 1'), smallRun('small2', 'Anna’s unit', 25)], { price: 700 });

/** Full runs, with colour and without. */
export const wideComparison = kept(
  (): Book =>
    compared([
      filled(randomRun(6)),
      filled(randomRun(3)),
      smallRun('small1', 'Unit 1'),
      filled(randomRun(9)),
    ]),
);

export function certificate(plan = smallRun('small1', 'Unit 1')): Book {
  const sheet = bookOf([plan]).sheets[0]!.name;
  const run = { sheet, addresses: addressesOf(plan) };
  return book(plan, certificatePlan({ run, number: '7', issuedBy: 'Library network' }, 'cert1'));
}

/** One of the sheets is gone, and still listed. */
export const overviewOfGone = kept(
  (): Book => overview([{ sheet: 'Run of a unit sent back', kind: 'run', id: 'gone1' }]),
);

/** With colour, black and whatever else that run was set up for. */
export const wideCertificate = kept((): Book => certificate(filled(randomRun(6))));

/** White at nine points; one unit is still being read, one line is free, and one has a slip that the sheet tells. */
export function batch(units = 4, part: Partial<BatchSetup> = {}): Book {
  const whole = batchSetup({ lines: units });
  const setup = { ...whole, stated: {}, lines: units + 1, ...part };
  const rows = Array.from({ length: units }, (_, i) =>
    Array.from({ length: 9 }, (__, point) => (i === 1 && point > 5 ? null : 74 + i + ((point * 7 + i) % 5))),
  );
  const plan = typedRows(batchPlan({ ...setup, units: whole.units.slice(0, units) }, 'batch1'), {
    Readings: rows,
    ...(setup.ambient === 'by row' ? { AmbientReadings: rows.map((_, i) => [2 + i]) } : {}),
    ...(setup.ambient === 'once' ? { AmbientReadings: [[3]], AmbientRange: [[1]] } : {}),
  });
  return book(plan);
}

/** The centre in each colour, against a reference unit with a full run. */
function centreBatch(): Book {
  const whole = batchSetup({ lines: 3 });
  const plan = batchPlan(
    {
      ...whole,
      stated: {},
      readings: 'centre in each colour',
      ambient: 'by row',
      reference: {
        unit: 'K-0001, Run 1',
        white: 800,
        colour: 640,
        whiteOutput: 1900,
        colourOutput: 1500,
      },
    },
    'batch2',
  );
  return book(
    typedRows(plan, {
      Readings: [
        [80, 17, 45, 7],
        [74, 15, 41, 6],
        [60, 12, 33, 5],
      ],
      AmbientReadings: [[2], [3], [2]],
    }),
  );
}

/** The smallest example of every kind but the run, which has tests of its own. */
export const EXAMPLES: Readonly<Record<string, () => Book>> = {
  need: kept(need),
  offers: kept(offers),
  spot: kept(spot),
  'spot, as listed': kept(undrawn),
  ageing: kept(ageing),
  'meter check': kept(() => book(meterCheckOf(METER_CHECK_READINGS))),
  acceptance: kept(acceptance),
  comparison: kept(comparison),
  certificate: kept(certificate),
  overview: kept(() => overview()),
  batch: kept(() => batch()),
  'batch, the centre in each colour': kept(centreBatch),
};

let ids = 0;
/** The ready example, calculated: every kind, linked to every other. */
export const readyExample = kept(() => calculateBook(exampleBook(() => `x${++ids}`)));
