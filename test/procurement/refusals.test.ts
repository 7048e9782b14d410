import { describe, expect, it } from 'vitest';
import type { Outcome } from '../../src/photometry/outcome';
import { fitAgeing } from '../../src/procurement/ageing/fit';
import { notPart, notWhole, notWithin } from '../../src/procurement/check';
import { drawSample } from '../../src/procurement/lot/draw';
import { samplingPlan } from '../../src/procurement/lot/plan';
import { acceptProbability, streamProbability } from '../../src/procurement/lot/probability';
import { lotVerdict } from '../../src/procurement/lot/verdict';
import type { NeedInput } from '../../src/procurement/need/input';
import { need } from '../../src/procurement/need/need';
import { contrastReached } from '../../src/procurement/need/reached';
import { assess } from '../../src/procurement/offers/assess';
import { costPerLumen, costPerLumenHour, lifeCost } from '../../src/procurement/offers/cost';
import type { Offer } from '../../src/procurement/offers/offer';
import { tender } from '../../src/procurement/wording/tender';
import { problemsOf } from '../photometry/outcome';

/* What is refused says where, what was expected and what came, each by itself. The words are ours: regression. */
type Refused = readonly [code: string, where: string, said: RegExp, () => Outcome<unknown>];
const refuses = (code: string, where: string, said: RegExp, outcome: () => Outcome<unknown>) => {
  expect(problemsOf(outcome())).toMatchObject([{ code, where, message: expect.stringMatching(said) }]);
};

describe('bounds, from both sides', () => {
  const part = (value: number) => notPart(value, 'part');
  const within = (value: number) => notWithin(value, 'width', { min: 2, max: 5 });
  const whole = (value: number) => notWhole(value, 'count', 1, 4);
  const least = (value: number) => notWhole(value, 'count', 1);

  it.each([
    ['a part', part, [Number.MIN_VALUE, 0.5, 1]],
    ['within', within, [2, 3.5, 5]],
    ['whole', whole, [1, 2, 4]],
    ['whole, no end', least, [1, 5, 1e15]],
  ] as const)('%s: taken', (_, check, values) => {
    for (const value of values) expect(check(value)).toEqual([]);
  });

  it.each([
    [part, 0, 'out-of-bounds', 'The part must be more than 0 and at most 1; it is 0.'],
    [part, 1.001, 'out-of-bounds', 'The part must be more than 0 and at most 1; it is 1.001.'],
    [part, Number.NaN, 'not-a-number', 'The part must be a finite number; it is NaN.'],
    [within, 1.999, 'out-of-bounds', 'The width must be from 2 to 5; it is 1.999.'],
    [within, 5.001, 'out-of-bounds', 'The width must be from 2 to 5; it is 5.001.'],
    [within, Number.NaN, 'not-a-number', 'The width must be a finite number; it is NaN.'],
    [whole, 0, 'out-of-bounds', 'The count must be a whole number from 1 to 4; it is 0.'],
    [whole, 5, 'out-of-bounds', 'The count must be a whole number from 1 to 4; it is 5.'],
    [whole, 2.5, 'out-of-bounds', 'The count must be a whole number from 1 to 4; it is 2.5.'],
    [least, 0, 'out-of-bounds', 'The count must be a whole number of at least 1; it is 0.'],
  ] as const)('%s of %d is refused: %s', (check, value, code, message) => {
    expect(check(value)).toMatchObject([{ code, message }]);
  });
});

describe('need', () => {
  const ROOM: NeedInput = { area: 2, gain: 1, ambient: 50, contrast: 15, ownContrast: 150, luminance: 80 };
  const room = (change: Partial<NeedInput>) => need({ ...ROOM, ...change });

  it.each<Refused>([
    ['negative', 'ambient illuminance', /it is -1\.$/, () => room({ ambient: -1 })],
    ['out-of-bounds', 'wanted contrast', /must be greater than 1; it is 1\.$/, () => room({ contrast: 1 })],
    ['not-a-number', 'wanted contrast', /it is NaN\.$/, () => room({ contrast: Number.NaN })],
    [
      'not-defined',
      'wanted contrast',
      /contrast of 150 cannot be reached.* is 150,/,
      () => room({ contrast: 150 }),
    ],
    [
      'out-of-bounds',
      'projector’s own contrast',
      /greater than 1; it is 0\.5\.$/,
      () => room({ ownContrast: 0.5, contrast: undefined }),
    ],
    ['out-of-bounds', 'wanted luminance', /greater than 0; it is 0\.$/, () => room({ luminance: 0 })],
    ['out-of-bounds', 'colour part', /at most 1; it is 1\.1\.$/, () => room({ colourPart: 1.1 })],
    ['missing', 'wish', /^State a wanted/, () => room({ contrast: undefined, luminance: undefined })],
    ['not-defined', 'need', /^In full darkness/, () => room({ ambient: 0, luminance: undefined })],
  ])('%s, %s', refuses);

  it.each<Refused>([
    ['negative', 'light output', /it is -1\.$/, () => contrastReached(-1, 2, 50)],
    ['out-of-bounds', 'image area', /it is 0\.$/, () => contrastReached(1000, 0, 50)],
    ['negative', 'ambient illuminance', /it is -1\.$/, () => contrastReached(1000, 2, -1)],
    ['out-of-bounds', 'projector’s own contrast', /it is 1\.$/, () => contrastReached(1000, 2, 50, 1)],
    ['not-defined', 'contrast', /without any light on black: give/, () => contrastReached(1000, 2, 0)],
  ])('reached: %s, %s', refuses);
});

describe('lots', () => {
  const rule = { lotSize: 10, sampleSize: 3, accept: 1 };
  const verdict = (inspected: number, nonconforming: number, plan: object = {}) =>
    lotVerdict({ sampleSize: 13, accept: 1, ...plan }, { inspected, nonconforming });

  it.each<Refused>([
    [
      'out-of-bounds',
      'lot size',
      /from 1 to 1000000; it is 1000001\.$/,
      () => acceptProbability({ ...rule, lotSize: 1_000_001 }, 0),
    ],
    [
      'out-of-bounds',
      'sample size',
      /they are 11 and 10\.$/,
      () => acceptProbability({ ...rule, sampleSize: 11 }, 0),
    ],
    [
      'out-of-bounds',
      'acceptance number',
      /they are 3 and 3\.$/,
      () => acceptProbability({ ...rule, accept: 3 }, 0),
    ],
    [
      'out-of-bounds',
      'number of nonconforming units',
      /0 to 10; it is 11\.$/,
      () => acceptProbability(rule, 11),
    ],
    [
      'out-of-bounds',
      'number of nonconforming units',
      /0 to 10; it is -1\.$/,
      () => acceptProbability(rule, -1),
    ],
    [
      'out-of-bounds',
      'fraction nonconforming',
      /0 to 1; it is -0\.1\.$/,
      () => streamProbability(3, 1, -0.1),
    ],
    ['out-of-bounds', 'fraction nonconforming', /0 to 1; it is 1\.1\.$/, () => streamProbability(3, 1, 1.1)],
    [
      'choice',
      'AQL',
      /one of 0\.01, .*, 1000 \(percent nonconforming\); it is 3\.$/,
      () => samplingPlan(60, 3),
    ],
    [
      'out-of-bounds',
      'sample size',
      /at least 1; it is 0\.$/,
      () => verdict(0, 0, { sampleSize: 0, accept: 0 }),
    ],
    ['out-of-bounds', 'acceptance number', /at least 0; it is -1\.$/, () => verdict(0, 0, { accept: -1 })],
    ['out-of-bounds', 'acceptance number', /they are 13 and 13\.$/, () => verdict(0, 0, { accept: 13 })],
    [
      'out-of-bounds',
      'number of nonconforming units',
      /\(6\) than inspected ones \(5\)\.$/,
      () => verdict(5, 6),
    ],
    ['out-of-bounds', 'number of units inspected', /^14 units were inspected.* 13:/, () => verdict(14, 0)],
    ['missing', 'seed', /^The seed is missing/, () => drawSample(['A'], 1, ' ')],
    ['missing', 'serials', /holds 2 serials; 3 are to be drawn/, () => drawSample(['A', 'B'], 3, 'x')],
    ['missing', 'serial in row 2', /^The serial in row 2 is missing\.$/, () => drawSample(['A', ''], 1, 'x')],
    ['choice', 'serials', /"A" is listed 2 times/, () => drawSample(['A', 'B', 'A'], 1, 'x')],
    ['out-of-bounds', 'sample size', /it is NaN\.$/, () => drawSample(['A'], Number.NaN, 'x')],
  ])('%s, %s', refuses);

  it('blank rows are named one by one, and are not taken for one serial listed twice', () => {
    const problems = problemsOf(drawSample(['A', '', ' '], 1, 'x'));
    expect(problems.map(({ where }) => where)).toEqual(['serial in row 2', 'serial in row 3']);
  });
});

describe('ageing', () => {
  const at = (...hours: number[]) => hours.map((t) => ({ hours: t, output: 1000 - t }));
  it.each<Refused>([
    ['missing', 'measurements', /at least 3 measurements; there are 2\.$/, () => fitAgeing(at(0, 100))],
    ['not-defined', 'measurements', /every measurement is at 500 h\.$/, () => fitAgeing(at(500, 500, 500))],
  ])('%s, %s', refuses);
});

describe('offers', () => {
  const PLAN = { years: 5, hoursPerYear: 2000, tariff: 0.3, currency: 'EUR' };
  const ASKED = { white: 2500, colour: 2500 };
  const COST = { price: 1, power: 1, hours: 1, tariff: 1, sourceLife: 1, sourcePrice: 1 };
  const cost = (change: Partial<typeof COST>) => lifeCost({ ...COST, ...change });
  const offer = (change: Partial<Offer>) => assess({ bidder: 'B', ...change }, ASKED, PLAN);
  const asked = (change: Partial<typeof ASKED>) => assess({ bidder: 'B' }, { ...ASKED, ...change }, PLAN);
  const planned = (change: Partial<typeof PLAN>) => assess({ bidder: 'B' }, ASKED, { ...PLAN, ...change });

  it.each<Refused>([
    ['negative', 'price', /it is -1\.$/, () => cost({ price: -1 })],
    ['negative', 'power', /it is -1\.$/, () => cost({ power: -1 })],
    ['negative', 'price of a kilowatt hour', /it is -1\.$/, () => cost({ tariff: -1 })],
    ['negative', 'price of a replacement source', /it is -1\.$/, () => cost({ sourcePrice: -1 })],
    ['negative', 'cost', /it is -1\.$/, () => costPerLumen(-1, 1)],
    ['negative', 'cost', /it is -1\.$/, () => costPerLumenHour(-1, 1, 1)],
    ['out-of-bounds', 'light output', /it is 0\.$/, () => costPerLumenHour(1, 0, 1)],
    ['out-of-bounds', 'hours', /it is 0\.$/, () => costPerLumenHour(1, 1, 0)],
    ['out-of-bounds', 'white light output asked for', /it is 0\.$/, () => asked({ white: 0 })],
    ['out-of-bounds', 'colour light output asked for', /it is 0\.$/, () => asked({ colour: 0 })],
    ['out-of-bounds', 'planned years', /it is 0\.$/, () => planned({ years: 0 })],
    ['out-of-bounds', 'hours a year', /it is 0\.$/, () => planned({ hoursPerYear: 0 })],
    ['negative', 'price of a kilowatt hour', /it is -1\.$/, () => planned({ tariff: -1 })],
    ['out-of-bounds', 'colour light output of B', /it is 0\.$/, () => offer({ colour: 0 })],
    ['negative', 'price of B', /it is -1\.$/, () => offer({ price: -1 })],
    ['out-of-bounds', 'power of B', /it is 0\.$/, () => offer({ power: 0 })],
    ['out-of-bounds', 'source life of B', /it is 0\.$/, () => offer({ sourceLife: 0 })],
    ['negative', 'price of a replacement source of B', /it is -1\.$/, () => offer({ sourcePrice: -1 })],
    ['negative', 'warranty of B', /it is -1\.$/, () => offer({ warranty: -1 })],
    // Each of the two is a number, the hours they make are more than the machine can count.
    [
      'not-a-number',
      'planned hours',
      /it is Infinity\.$/,
      () =>
        assess({ bidder: 'B', price: 1, currency: 'EUR', power: 1, sourceLife: 1, sourcePrice: 1 }, ASKED, {
          ...PLAN,
          years: 1e200,
          hoursPerYear: 1e200,
        }),
    ],
    [
      'missing',
      'standard',
      /^Name the measuring standard with its year\.$/,
      () => tender({ ...ASKED, standard: ' ', fraction: 0.8, rule: 'no guard band' }),
    ],
  ])('%s, %s', refuses);

  it('nothing may cost nothing', () => {
    const free = { bidder: 'B', price: 0, sourcePrice: 0, warranty: 0 };
    expect(assess(free, ASKED, { ...PLAN, tariff: 0 }).ok).toBe(true);
  });
});
