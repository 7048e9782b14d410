import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { operatingCurve, riskPoints } from '../../src/procurement/lot/curve';
import { acceptProbability, streamProbability } from '../../src/procurement/lot/probability';
import { expectPrinted } from '../photometry/closeto';
import { goodOf, problemsOf } from '../photometry/outcome';
import { LOT_PROBABILITIES, STREAM_PROBABILITIES } from '../references/lots';

const probability = (lotSize: number, sampleSize: number, accept: number, nonconforming: number) =>
  goodOf(acceptProbability({ lotSize, sampleSize, accept }, nonconforming));

/** C(n, k) in whole numbers, exactly. */
function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n;
  let result = 1n;
  for (let i = 1; i <= k; i++) result = (result * BigInt(n - k + i)) / BigInt(i);
  return result;
}
/** The same probability by whole numbers of any length, divided once at the end: another way to the value. */
function exact(N: number, n: number, c: number, D: number): number {
  let sum = 0n;
  for (let i = 0; i <= c; i++) sum += choose(D, i) * choose(N - D, n - i);
  return Number((sum * 10n ** 40n) / choose(N, n)) / 1e40;
}

describe('one lot, exactly (hypergeometric)', () => {
  it.each(LOT_PROBABILITIES)('N %d, n %d, c %d, D %d: %s', (N, n, c, D, printed) => {
    expectPrinted(probability(N, n, c, D), printed);
  });

  // scipy 1.17.1, hypergeom.cdf: large lots, to full digits.
  it.each([
    [10_000, 200, 5, 100, 0.9850328829968767],
    [10_000, 200, 14, 500, 0.9239341165911056],
    [10_000, 2000, 400, 2200, 0.00818528307100867],
    [10_000, 5000, 2400, 5000, 3.438632197445924e-5],
  ])('N %d, n %d, c %d, D %d: %d (scipy)', (N, n, c, D, expected) => {
    expect(probability(N, n, c, D) / expected - 1).toBeCloseTo(0, 9);
  });

  it('agrees with whole-number arithmetic to 1e-12, lots of up to 10 000', () => {
    const plan = fc
      .integer({ min: 2, max: 10_000 })
      .chain((N) =>
        fc.tuple(
          fc.constant(N),
          fc.integer({ min: 1, max: Math.min(N, 300) }),
          fc.integer({ min: 0, max: N }),
        ),
      )
      .chain(([N, n, D]) =>
        fc.tuple(fc.constant(N), fc.constant(n), fc.integer({ min: 0, max: n - 1 }), fc.constant(D)),
      );
    fc.assert(
      fc.property(plan, ([N, n, c, D]) => {
        expect(Math.abs(probability(N, n, c, D) - exact(N, n, c, D))).toBeLessThan(1e-12);
      }),
      { numRuns: 150 },
    );
  });

  it('is a distribution: the probabilities of each count add up to 1', () => {
    const sizes = fc
      .integer({ min: 2, max: 400 })
      .chain((N) => fc.tuple(fc.constant(N), fc.integer({ min: 1, max: N }), fc.integer({ min: 0, max: N })));
    fc.assert(
      fc.property(sizes, ([N, n, D]) => {
        let sum = 0;
        for (let c = 0; c < n; c++)
          sum += probability(N, n, c, D) - (c === 0 ? 0 : probability(N, n, c - 1, D));
        // What is left is the probability of n nonconforming ones: C(D, n) ÷ C(N, n).
        const last = Number((choose(D, n) * 10n ** 30n) / choose(N, n)) / 1e30;
        expect(sum + last).toBeCloseTo(1, 10);
      }),
      { numRuns: 60 },
    );
  });

  it('never rises with more bad units, more inspected or fewer allowed', () => {
    const rule = fc
      .integer({ min: 3, max: 2000 })
      .chain((N) => fc.tuple(fc.constant(N), fc.integer({ min: 2, max: N - 1 })))
      .chain(([N, n]) =>
        fc.tuple(
          fc.constant(N),
          fc.constant(n),
          fc.integer({ min: 1, max: n - 1 }),
          fc.integer({ min: 0, max: N - 1 }),
        ),
      );
    fc.assert(
      fc.property(rule, ([N, n, c, D]) => {
        const base = probability(N, n, c, D) * (1 + 1e-12);
        expect(probability(N, n, c, D + 1)).toBeLessThanOrEqual(base);
        expect(probability(N, n + 1, c, D)).toBeLessThanOrEqual(base);
        expect(probability(N, n, c - 1, D)).toBeLessThanOrEqual(base);
      }),
    );
  });

  it('certainties: no bad unit, all inspected', () => {
    expect(probability(50, 13, 0, 0)).toBe(1);
    expect(probability(50, 50, 2, 2)).toBe(1);
    expect(probability(50, 50, 2, 3)).toBe(0);
    expect(probability(50, 13, 1, 50)).toBe(0);
  });

  it.each([
    [
      { lotSize: 10, sampleSize: 11, accept: 0 },
      1,
      /sample cannot be larger than the lot; they are 11 and 10/,
    ],
    [{ lotSize: 10, sampleSize: 3, accept: 3 }, 1, /no lot is ever rejected/],
    [{ lotSize: 10, sampleSize: 3, accept: 0 }, 11, /whole number from 0 to 10; it is 11/],
    [{ lotSize: 10, sampleSize: 3, accept: 0 }, 1.5, /whole number/],
    [{ lotSize: 1e9, sampleSize: 3, accept: 0 }, 1, /lot size must be a whole number from 1 to 1000000/],
    [{ lotSize: 10, sampleSize: 0, accept: -1 }, 1, /sample size.*acceptance number/],
  ])('refuses %j with %d', (rule, nonconforming, message) => {
    const text = problemsOf(acceptProbability(rule, nonconforming)).map((problem) => problem.message);
    expect(text.join(' ')).toMatch(message);
  });
});

describe('a series of lots (binomial)', () => {
  it.each(STREAM_PROBABILITIES)('n %d, c %d, p %d: %s (%s)', (n, c, p, printed) => {
    expectPrinted(goodOf(streamProbability(n, c, p)), printed);
  });
  it('n 80, c 7 is the smallest plan for (0.05, at least 0.95) and (0.15, at most 0.075) (same vignette)', () => {
    const fits = (n: number, c: number) =>
      goodOf(streamProbability(n, c, 0.05)) >= 0.95 && goodOf(streamProbability(n, c, 0.15)) <= 0.075;
    expect(fits(80, 7)).toBe(true);
    for (let n = 2; n < 80; n++) for (let c = 0; c < n; c++) expect(fits(n, c), `n ${n}, c ${c}`).toBe(false);
  });
  // scipy 1.17.1, binom.cdf.
  it.each([
    [1250, 21, 0.03, 0.0021818023768050477],
    [200, 5, 0.05, 0.06234249504229472],
    [2000, 300, 0.2, 4.382386351665002e-9],
  ])('n %d, c %d, p %d: %d (scipy)', (n, c, p, expected) => {
    expect(goodOf(streamProbability(n, c, p)) / expected - 1).toBeCloseTo(0, 9);
  });
  it('is what a very large lot tends to', () => {
    expect(probability(1_000_000, 20, 1, 50_000)).toBeCloseTo(goodOf(streamProbability(20, 1, 0.05)), 5);
  });
  it('at 0 and 1, and beyond', () => {
    expect(goodOf(streamProbability(20, 1, 0))).toBe(1);
    expect(goodOf(streamProbability(20, 1, 1))).toBe(0);
    expect(problemsOf(streamProbability(20, 1, 1.1))[0]!.message).toMatch(/from 0 to 1; it is 1.1/);
  });
});

describe('the curve', () => {
  const rule = { lotSize: 50, sampleSize: 13, accept: 1 };
  it('begins at certainty, ends where hardly a lot passes, and falls', () => {
    const points = goodOf(operatingCurve(rule));
    expect(points[0]).toEqual({ nonconforming: 0, fraction: 0, probability: 1 });
    expectPrinted(points[2]!.probability, '0.936327');
    expectPrinted(points[5]!.probability, '0.610962');
    expect(points.at(-1)!.probability).toBeLessThan(0.001);
    for (let i = 1; i < points.length; i++)
      expect(points[i]!.probability).toBeLessThanOrEqual(points[i - 1]!.probability);
  });
  it('says each number of units as a part of the lot', () => {
    expect(goodOf(operatingCurve(rule))[5]).toMatchObject({ nonconforming: 5, fraction: 0.1 });
  });
  it('has no more points than asked for, whatever the lot', () => {
    for (let most = 2; most <= 40; most++)
      expect(
        goodOf(operatingCurve({ lotSize: 10_000, sampleSize: 200, accept: 10 }, most)).length,
      ).toBeLessThanOrEqual(most);
    expect(goodOf(operatingCurve({ lotSize: 2, sampleSize: 2, accept: 0 })).length).toBe(2);
  });
  it('risk points by hand, N 10, n 3, c 0: 0.7 at one, C(6,3)/C(10,3) = 1/6 at four, C(5,3)/C(10,3) = 1/12 at five', () => {
    const { producer, consumer } = goodOf(riskPoints({ lotSize: 10, sampleSize: 3, accept: 0 }));
    expect(producer).toEqual({ nonconforming: 0, fraction: 0, probability: 1 });
    expect(consumer.nonconforming).toBe(5);
    expectPrinted(consumer.probability, '0.083333');
  });
  it('one of two, none allowed: with one nonconforming unit just half of the lots pass, which each risk still takes in', () => {
    const half = goodOf(riskPoints({ lotSize: 2, sampleSize: 1, accept: 0 }, 0.5, 0.5));
    const one = { nonconforming: 1, fraction: 0.5, probability: 0.5 };
    expect(half).toEqual({ producer: one, consumer: one });
  });
  it('are the last good and the first bad lot', () => {
    const plan = fc
      .integer({ min: 3, max: 3000 })
      .chain((N) => fc.tuple(fc.constant(N), fc.integer({ min: 2, max: Math.min(N, 200) })))
      .chain(([N, n]) => fc.tuple(fc.constant(N), fc.constant(n), fc.integer({ min: 0, max: n - 1 })));
    fc.assert(
      fc.property(plan, ([N, n, c]) => {
        const { producer, consumer } = goodOf(riskPoints({ lotSize: N, sampleSize: n, accept: c }));
        expect(producer.probability).toBeGreaterThanOrEqual(0.95);
        expect(probability(N, n, c, producer.nonconforming + 1)).toBeLessThan(0.95);
        expect(consumer.probability).toBeLessThanOrEqual(0.1);
        expect(probability(N, n, c, consumer.nonconforming - 1)).toBeGreaterThan(0.1);
      }),
    );
  });
  it('refuses what is no rule', () => {
    expect(problemsOf(operatingCurve({ ...rule, accept: 13 }))).toHaveLength(1);
    expect(problemsOf(riskPoints({ ...rule, sampleSize: 51 }))).toHaveLength(1);
  });
});
