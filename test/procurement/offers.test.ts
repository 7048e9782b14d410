import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/procurement/offers/assess';
import { costPerLumen, costPerLumenHour, lifeCost, replacements } from '../../src/procurement/offers/cost';
import { judge, together } from '../../src/procurement/offers/judge';
import { type Offer, sameCurrency, type UsePlan } from '../../src/procurement/offers/offer';
import { questionsFor } from '../../src/procurement/offers/questions';
import { expectPrinted } from '../photometry/closeto';
import { goodOf, problemsOf } from '../photometry/outcome';

/** Five years of 2000 h: 10 000 h; 0.30 a kilowatt hour. */
const PLAN: UsePlan = { years: 5, hoursPerYear: 2000, tariff: 0.3, currency: 'EUR' };
const ASKED = { white: 2500, colour: 2500 };
/** An invented offer that lacks nothing. */
const WHOLE: Offer = {
  bidder: 'Bidder A',
  white: 3000,
  colour: 2500,
  standard: 'ISO/IEC 21118:2020',
  price: 1200,
  currency: 'EUR',
  power: 300,
  sourceLife: 4000,
  sourcePrice: 150,
  warranty: 3,
};

describe('costs by hand', () => {
  it('300 W × 10 000 h = 3000 kWh × 0.30 = 900; sources 4000 h: 3 needed, 2 bought = 300; with 1200: 2400', () => {
    const cost = goodOf(
      lifeCost({ price: 1200, power: 300, hours: 10_000, tariff: 0.3, sourceLife: 4000, sourcePrice: 150 }),
    );
    expectPrinted(cost.energy, '900.0000000');
    expect(cost.replacements).toBe(2);
    expect(cost.sources).toBe(300);
    expectPrinted(cost.total, '2400.0000000');
  });

  it.each([
    [10_000, 4000, 2],
    [10_000, 10_000, 0], // the first one lasts to the end
    [10_001, 10_000, 1],
    [12_000, 4000, 2], // three sources one after the other
    [500, 20_000, 0],
    [3 * 0.1 * 10_000, 1000, 2], // 3000.0000000000005 h are 3000 h
  ])('%d h on sources of %d h: %d bought', (hours, life, bought) => {
    expect(goodOf(replacements(hours, life))).toBe(bought);
  });

  it('1200 ÷ 3000 lm and 2400 ÷ (3000 lm × 10 000 h)', () => {
    expectPrinted(goodOf(costPerLumen(1200, 3000)), '0.4');
    expectPrinted(goodOf(costPerLumenHour(2400, 3000, 10_000)), '0.00008000000');
  });

  it('name what is wrong', () => {
    expect(problemsOf(replacements(0, 4000))[0]!.message).toMatch(/planned hours must be greater than 0/);
    expect(problemsOf(replacements(10, -1))[0]!.message).toMatch(/source life must be greater than 0/);
    expect(problemsOf(costPerLumen(1, 0))[0]!.where).toBe('light output');
    expect(
      problemsOf(lifeCost({ price: -1, power: -1, hours: 0, tariff: -1, sourceLife: 0, sourcePrice: -1 })),
    ).toHaveLength(6);
  });

  it('grow with every part, and with the hours', () => {
    const money = fc.double({ min: 0, max: 1e5, noNaN: true });
    const input = fc.record({
      price: money,
      power: fc.double({ min: 0, max: 5000, noNaN: true }),
      hours: fc.double({ min: 1, max: 1e5, noNaN: true }),
      tariff: fc.double({ min: 0, max: 5, noNaN: true }),
      sourceLife: fc.double({ min: 100, max: 1e5, noNaN: true }),
      sourcePrice: money,
    });
    fc.assert(
      fc.property(input, fc.double({ min: 1, max: 3, noNaN: true }), (one, more) => {
        const total = goodOf(lifeCost(one)).total;
        for (const key of ['price', 'power', 'hours', 'tariff', 'sourcePrice'] as const)
          expect(goodOf(lifeCost({ ...one, [key]: one[key] * more })).total).toBeGreaterThanOrEqual(total);
        expect(goodOf(lifeCost({ ...one, sourceLife: one.sourceLife * more })).total).toBeLessThanOrEqual(
          total,
        );
      }),
    );
  });
});

describe('judging', () => {
  it('says by how much', () => {
    expect(judge(3000, 2500)).toEqual({ state: 'meets', margin: 500, part: 1.2 });
    expect(judge(2000, 2500)).toEqual({ state: 'short', margin: -500, part: 0.8 });
    expect(judge(undefined, 2500)).toEqual({ state: 'ask' });
  });
  it('the figure asked for meets; a rounding of doubles does not decide', () => {
    expect(judge(2500, 2500).state).toBe('meets');
    expect(judge(0.3, 0.1 + 0.2).state).toBe('meets');
    expect(judge(2499, 2500).state).toBe('short');
    // Up to a thousand-millionth, which itself still meets.
    expect(judge(1 - 1e-9, 1).state).toBe('meets');
    expect(judge(1 - 1.1e-9, 1).state).toBe('short');
  });
  it('short weighs more than a missing figure, a missing figure more than a met one', () => {
    expect(together('short', 'ask')).toBe('short');
    expect(together('ask', 'meets')).toBe('ask');
    expect(together('meets', 'meets')).toBe('meets');
  });
});

describe('an offer', () => {
  it('complete: figures by hand', () => {
    const found = goodOf(assess(WHOLE, ASKED, PLAN));
    expect(found.state).toBe('meets');
    expect(found.white.margin).toBe(500);
    expect(found.colour.margin).toBe(0);
    expectPrinted(found.pricePerLumen.white!, '0.4'); // 1200 ÷ 3000
    expectPrinted(found.pricePerLumen.colour!, '0.48'); // 1200 ÷ 2500
    expectPrinted(found.lifeCost!.total, '2400.0000');
    expectPrinted(found.costPerLumenHour.white!, '0.0000800000'); // 2400 ÷ 3000 ÷ 10 000
    expectPrinted(found.costPerLumenHour.colour!, '0.0000960000'); // 2400 ÷ 2500 ÷ 10 000
    expect(found.questions).toEqual([]);
  });

  it('boosted in white: short in colour by 700 lm', () => {
    const found = goodOf(assess({ ...WHOLE, white: 4000, colour: 1800 }, ASKED, PLAN));
    expect(found.state).toBe('short');
    expect(found.colour.margin).toBe(-700);
  });

  it('a missing colour figure is a question, not a zero', () => {
    const found = goodOf(assess({ ...WHOLE, colour: undefined }, ASKED, PLAN));
    expect(found.state).toBe('ask');
    expect(found.colour).toEqual({ state: 'ask' });
    expect(found.pricePerLumen).toEqual({ white: 0.4 });
    expect(found.questions).toHaveLength(1);
    expect(found.questions[0]).toMatch(/colour light output in lumens/);
  });

  it.each([
    ['price', /state the price/],
    ['currency', /which currency/],
    ['power', /electric power/],
    ['sourceLife', /how many hours is the light source/],
    ['sourcePrice', /replacement light source cost/],
    ['standard', /which standard/],
    ['warranty', /years of warranty/],
    ['white', /white light output in lumens/],
  ] as const)('without %s: asked back, nothing made up', (key, question) => {
    const found = goodOf(assess({ ...WHOLE, [key]: undefined }, ASKED, PLAN));
    expect(found.questions).toHaveLength(1);
    expect(found.questions[0]).toMatch(question);
    expect(found.pricePerLumen).toEqual(
      key === 'price' ? {} : key === 'white' ? { colour: 0.48 } : { white: 0.4, colour: 0.48 },
    );
    const costs = ['price', 'currency', 'power', 'sourceLife', 'sourcePrice'].includes(key);
    expect(found.lifeCost === undefined).toBe(costs);
  });

  it('no price of a source is needed where none is bought', () => {
    const found = goodOf(assess({ ...WHOLE, sourceLife: 20_000, sourcePrice: undefined }, ASKED, PLAN));
    expect(found.questions).toEqual([]);
    expectPrinted(found.lifeCost!.total, '2100.0000'); // 1200 + 900
  });

  it('another currency is asked for, never converted', () => {
    const found = goodOf(assess({ ...WHOLE, currency: 'CHF' }, ASKED, PLAN));
    expect(found.lifeCost).toBeUndefined();
    expect(found.questions).toEqual([
      'The price is in CHF, costs are compared in EUR. Please state the price in EUR.',
    ]);
    expect(questionsFor({ ...WHOLE, currency: ' CHF ' }, { ...PLAN, currency: ' EUR ' })).toEqual(
      found.questions,
    );
    expect([sameCurrency(' eur', 'EUR'), sameCurrency('EUR', 'eur ')]).toEqual([true, true]);
    expect([sameCurrency('', ''), sameCurrency(' ', ' ')]).toEqual([false, false]);
  });

  it('colour above white is questioned', () => {
    expect(questionsFor({ ...WHOLE, colour: 3300 }, PLAN)[0]).toMatch(/larger than the white one/);
    // Up to 5 % above, 3150 lm, may be the measurement.
    expect(questionsFor({ ...WHOLE, colour: 3150 }, PLAN)).toEqual([]);
    expect(questionsFor({ ...WHOLE, colour: 3151 }, PLAN)).toHaveLength(1);
  });

  it('an empty offer asks for everything and stands', () => {
    const found = goodOf(assess({ bidder: 'Bidder B' }, ASKED, PLAN));
    expect(found.state).toBe('ask');
    expect(found.questions).toHaveLength(7);
  });

  it('wrong figures are named with the bidder', () => {
    const problems = problemsOf(assess({ ...WHOLE, white: -1, price: Number.NaN }, ASKED, PLAN));
    expect(problems.map(({ where }) => where)).toEqual([
      'white light output of Bidder A',
      'price of Bidder A',
    ]);
    expect(problemsOf(assess(WHOLE, ASKED, { ...PLAN, years: 0 }))[0]!.where).toBe('planned years');
  });
});
