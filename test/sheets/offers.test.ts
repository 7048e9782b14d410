import { describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { calculate } from '../../src/audit/formula/calculate';
import { assess } from '../../src/procurement/offers/assess';
import type { Offer } from '../../src/procurement/offers/offer';
import { cellsOf } from '../../src/sheets/address';
import { filled } from '../../src/sheets/filled';
import type { CellName } from '../../src/sheets/names/all';
import { offersPlan } from '../../src/sheets/offers';
import { bookOf } from '../../src/sheets/realize';
import { writeXlsx } from '../../src/xlsx/write';
import { createPaneHost } from '../excel/host';
import { recalculate } from '../tools/libreoffice';
import { random } from './randomrun';

const USE = { years: 5, hoursPerYear: 1600, tariff: 0.31, currency: 'EUR' };
const ASKED = { white: 2610, colour: 2400 };

/** Invented offers, some with gaps, one as a formula would begin. */
function offers(count: number): Offer[] {
  const draw = random(5);
  const known = <T>(value: T) => (draw() < 0.8 ? value : undefined);
  return Array.from({ length: count }, (_, i) => ({
    bidder: i === 3 ? '=1+1' : `Offer ${i + 1} (invented)`,
    white: known(Math.round(1800 + draw() * 2500)),
    colour: known(Math.round(1500 + draw() * 2500)),
    standard: known('ISO/IEC 21118'),
    price: known(Math.round(60_000 + draw() * 90_000) / 100),
    currency: known(draw() < 0.85 ? 'EUR' : 'SEK'),
    power: known(Math.round(180 + draw() * 250)),
    sourceLife: known([4000, 8000, 20_000][Math.floor(draw() * 3)]!),
    sourcePrice: known(120),
    warranty: known(3),
  }));
}
const OFFERS = offers(40);
const plan = offersPlan({ asked: ASKED, use: USE, offers: OFFERS, spare: 3 }, 'o1');
const column = (name: CellName) => cellsOf(plan.names.find((n) => n.name === name)!.range);
const assessed = OFFERS.map((offer) => {
  const outcome = assess(offer, ASKED, USE);
  if (!outcome.ok) throw new Error('These offers are sound');
  return outcome.value;
});

it('a price in no currency is a question, on the sheet as to the check', async () => {
  const whole = { ...OFFERS[0]!, white: 3000, colour: 3000, price: 900, power: 250, sourceLife: 20_000 };
  const [unknown, other] = ['', 'EUR'].map((currency) => ({
    ...whole,
    bidder: `In ${currency || 'none'}`,
    currency,
  }));
  const use = { ...USE, currency: '' };
  const none = offersPlan({ asked: ASKED, use, offers: [unknown!, other!], spare: 1 }, 'o2');
  const some = offersPlan({ asked: ASKED, use: USE, offers: [unknown!, other!], spare: 1 }, 'o3');
  const [bare, stated] = bookOf([none, some]).sheets.map(calculate);
  const costs = column('OfferCost').slice(0, 2);
  // Nothing is in a currency that nobody named (`sameCurrency`).
  expect(costs.map((at) => bare!.cells[at]!.value)).toEqual(['ask', 'ask']);
  expect(stated!.cells[costs[0]!]!.value).toBe('ask');
  expect(typeof stated!.cells[costs[1]!]!.value).toBe('number');
  expect(bare!.cells[column('OfferQuestions')[0]!]!.value).toContain('price in the currency of the plan');
  for (const sheet of [bare!, stated!]) {
    const { findings } = await check({ sheets: [sheet], names: [] });
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  }
});

it('LibreOffice recalculates state and costs to what the domain gives', async () => {
  const [book] = await recalculate([await writeXlsx(bookOf([plan]), { cachedValues: false })]);
  const cells = book!.sheets[0]!.cells;
  expect(
    column('OfferState')
      .slice(0, OFFERS.length)
      .map((at) => cells[at]?.value),
  ).toEqual(assessed.map(({ state }) => state));
  column('OfferCost')
    .slice(0, OFFERS.length)
    .forEach((at, i) => {
      const want = assessed[i]!.lifeCost?.total;
      const came = cells[at]?.value;
      if (want === undefined) expect(typeof came, OFFERS[i]!.bidder).toBe('string');
      else expect((came as number) / want, OFFERS[i]!.bidder).toBeCloseTo(1, 9);
    });
  column('OfferPerColourHour')
    .slice(0, OFFERS.length)
    .forEach((at, i) => {
      const want = assessed[i]!.costPerLumenHour.colour;
      if (want !== undefined) expect((cells[at]?.value as number) / want).toBeCloseTo(1, 9);
    });
  // As many things to ask as the domain finds.
  const asked = column('OfferQuestions')
    .slice(0, OFFERS.length)
    .map((at) => String(cells[at]?.value ?? '').split('; ').length - 1);
  expect(asked).toEqual(assessed.map(({ questions }) => questions.length));
  expect(cells[column('Bidders')[3]!]?.value).toBe('=1+1');
});

it('functions and plain formulas agree in the embedded engine', async () => {
  const { host, test } = await createPaneHost();
  const { sheet } = await host.build(plan);
  await test.engine.calculation.settled();
  const { values } = await host.read(sheet);
  const wanted = assessed.map(({ lifeCost }) => (lifeCost ? 'agree' : ''));
  expect(
    values
      .Agreement!.values.flat()
      .slice(0, OFFERS.length)
      .map((cell) => cell ?? ''),
  ).toEqual(wanted);
});

/** A plan with the name of an offer typed as the chosen one. */
const choosing = (name: string, id: string) =>
  filled(offersPlan({ ...SETUP, offers: CHOICE }, id), { ChosenOffer: [[name]] });
const SETUP = { asked: ASKED, use: USE, spare: 2 };
const CHOICE: Offer[] = [
  { bidder: 'North*', white: 3000, colour: 2900 },
  { bidder: 'North 1', white: 3100 },
  { bidder: 'Twice', white: 1, colour: 2 },
  { bidder: 'Twice', white: 3, colour: 4 },
  { bidder: 'twice', white: 5, colour: 6 },
];

describe('the chosen offer', () => {
  const names = ['North*', 'North 1', 'North?', 'Twice', 'twice', ''];
  const wanted = [
    [1, 3000, 2900],
    [2, 3100, 'not stated'],
    ['no offer of that name', 'no offer of that name', 'no offer of that name'],
    ['several offers of that name', 'several offers of that name', 'several offers of that name'],
    [5, 5, 6],
    ['none chosen', 'none chosen', 'none chosen'],
  ];
  const cells = (values: (name: CellName) => unknown) =>
    (['ChosenLine', 'ChosenWhite', 'ChosenColour'] as const).map(values);

  it('LibreOffice finds it by its name, letter for letter, however the lines are sorted', async () => {
    const books = await recalculate([
      await writeXlsx(
        bookOf(
          names.map((name, i) =>
            name ? choosing(name, `c${i}`) : offersPlan({ ...SETUP, offers: CHOICE }, 'c'),
          ),
        ),
        { cachedValues: false },
      ),
    ]);
    const own = choosing('North*', 'c');
    expect(
      books[0]!.sheets.map((sheet) =>
        cells((name) => sheet.cells[own.names.find((one) => one.name === name)!.range]?.value),
      ),
    ).toEqual(wanted);
  });

  it('the embedded engine does so too, and nothing is judged where nothing is asked for', async () => {
    const { host, test } = await createPaneHost();
    const { sheet } = await host.build(choosing('North*', 'c9'));
    await test.engine.calculation.settled();
    const read = async () => (await host.read(sheet)).values;
    const values = await read();
    expect(cells((name) => values[name]!.values[0]![0])).toEqual(wanted[0]);
    expect(values.OfferState!.values.flat().slice(0, 2)).toEqual(['meets', 'ask']);
    await host.writeCells(sheet, [{ name: 'AskedWhite', row: 0, column: 0, value: null }]);
    await test.engine.calculation.settled();
    expect((await read()).OfferState!.values.flat().slice(0, 2)).toEqual(['no need', 'no need']);
  });
});

it('a cost worked by hand', () => {
  // 1000 + 0.3 kW × 8000 h × 0.31 + (8000 ÷ 4000 − 1) × 120 = 1000 + 744 + 120 = 1864.
  const offer = {
    bidder: 'x',
    white: 3000,
    colour: 3000,
    price: 1000,
    currency: 'EUR',
    power: 300,
    sourceLife: 4000,
    sourcePrice: 120,
  };
  const outcome = assess(offer, ASKED, USE);
  expect(outcome.ok && outcome.value.lifeCost?.total).toBeCloseTo(1864, 9);
});
