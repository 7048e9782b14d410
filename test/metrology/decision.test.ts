import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FOUR_OUTCOMES, GUARDED, judge, type Rule, SIMPLE, VERDICTS } from '../../src/metrology/decision';
import { type Guard, guardWidth } from '../../src/metrology/guard';
import { type Limits, limitProblems } from '../../src/metrology/limits';
import { conformanceProbability } from '../../src/metrology/probability';
import { DECISION_RULES, ruleOf } from '../../src/metrology/rules';
import { normalCdf, tCdf } from '../../src/metrology/student';
import { decide } from './decide';
import { got, problemsOf } from './outcome';

const INFINITE = Number.POSITIVE_INFINITY;

describe('probability of conformity (JCGM 106:2012, clause 7, from memory; digits by scipy 1.17.1)', () => {
  it('breakdown voltage: −5.47 V, u 0.05 V, limit −5.40 V: 0.92', () => {
    const p = got(conformanceProbability({ value: -5.47, u: 0.05 }, { upper: -5.4 }));
    expect(p).toBeCloseTo(0.919243, 6);
  });

  it('by the standard normal distribution: one limit, two limits, mirrored', () => {
    // scipy 1.17.1: Φ(1) = 0.8413447460685429, Φ(2) − Φ(−1) = 0.8185946141203637.
    expect(got(conformanceProbability({ value: 11, u: 1 }, { lower: 10 }))).toBeCloseTo(
      0.8413447460685429,
      14,
    );
    expect(got(conformanceProbability({ value: 9, u: 1 }, { upper: 10 }))).toBeCloseTo(
      0.8413447460685429,
      14,
    );
    expect(got(conformanceProbability({ value: 11, u: 1 }, { lower: 10, upper: 13 }))).toBeCloseTo(
      0.8185946141203637,
      14,
    );
  });

  it('with few readings: at ν = 4, 4.5 u leaves a risk of 5.4e-3, not 3.4e-6 (a metrology library)', () => {
    expect(1 - got(conformanceProbability({ value: 4.5, u: 1, dof: 4 }, { lower: 0 }))).toBeCloseTo(
      5.4e-3,
      4,
    );
    expect(1 - got(conformanceProbability({ value: 4.5, u: 1 }, { lower: 0 }))).toBeCloseTo(3.4e-6, 7);
  });

  it('keeps its digits far out', () => {
    // scipy 1.17.1: Φ(−10) − Φ(−12) = 7.619853022384e-24.
    const p = got(conformanceProbability({ value: 0, u: 1 }, { lower: 10, upper: 12 }));
    expect(p / 7.619853022384e-24).toBeCloseTo(1, 9);
    const mirrored = got(conformanceProbability({ value: 0, u: 1 }, { lower: -12, upper: -10 }));
    expect(mirrored / 7.619853022384e-24).toBeCloseTo(1, 9);
  });

  it('between limits on one side is the difference of both tails: Φ(2) − Φ(1) = 0.9772 − 0.8413 (any table)', () => {
    for (const limits of [
      { lower: 1, upper: 2 },
      { lower: -2, upper: -1 },
    ])
      expect(got(conformanceProbability({ value: 0, u: 1 }, limits))).toBeCloseTo(0.9772 - 0.8413, 4);
  });

  it.each([
    [9.999, 0],
    [10, 1],
    [11, 1],
    [12, 1],
    [12.001, 0],
  ])('with u = 0 is 1 on and inside the limits 10 and 12, 0 outside: %f is %i', (value, expected) =>
    expect(got(conformanceProbability({ value, u: 0 }, { lower: 10, upper: 12 }))).toBe(expected),
  );

  it('refuses crossed limits, no limit, negative u, NaN, ν = 0', () => {
    const code = (...args: Parameters<typeof conformanceProbability>) =>
      problemsOf(conformanceProbability(...args))[0]!.code;
    expect(code({ value: 1, u: 1 }, { lower: 2, upper: 1 })).toBe('out-of-bounds');
    expect(code({ value: 1, u: 1 }, { lower: 1, upper: 1 })).toBe('out-of-bounds');
    expect(code({ value: 1, u: 1 }, {})).toBe('missing');
    expect(code({ value: 1, u: -1 }, { lower: 0 })).toBe('negative');
    expect(code({ value: Number.NaN, u: 1 }, { lower: 0 })).toBe('not-a-number');
    expect(code({ value: 1, u: 1 }, { lower: Number.NaN })).toBe('not-a-number');
    expect(code({ value: 1, u: 1, dof: 0 }, { lower: 0 })).toBe('not-defined');
  });
});

describe('guard bands', () => {
  // Risks stated for multiples of U (ILAC-G8 table, as retold; full digits by scipy 1.17.1 for k = 2).
  it.each([
    [3, 9.87e-10],
    [1.5, 0.00135],
    [1, 0.02275],
    [0.83, 0.048457],
    [0, 0.5],
  ])('w = %f U leaves a risk of %f', (factor, risk) => {
    const w = got(guardWidth({ kind: 'expanded', factor }, 2));
    const p = 1 - got(conformanceProbability({ value: 10 + w, u: 1 }, { lower: 10 }));
    expect(Math.abs(p - risk)).toBeLessThan(risk * 1e-3);
  });

  it('have a width of nought where there is none', () =>
    expect(got(guardWidth({ kind: 'none' }, 2))).toBe(0));

  it.each([
    [
      'factor',
      Number.NaN,
      2,
      'guard band factor',
      'The guard band factor must be a finite number; it is NaN.',
    ],
    ['U', 1, -2, 'expanded uncertainty', 'The expanded uncertainty must not be negative; it is -2.'],
  ])('refuse a %s that is none', (_, factor, expanded, where, message) => {
    const guard: Guard = { kind: 'expanded', factor };
    expect(problemsOf(guardWidth(guard, expanded))).toMatchObject([{ where, message }]);
  });
});

describe('limits', () => {
  it.each<Limits>([{ lower: 5 }, { upper: 5 }, { lower: -1, upper: 1 }])('%o can be decided by', (limits) =>
    expect(limitProblems(limits)).toEqual([]),
  );

  it('must be there, one at least', () =>
    expect(limitProblems({})).toEqual([
      {
        kind: 'missing',
        code: 'missing',
        where: 'limits',
        message: 'A decision needs a lower or an upper limit, or both.',
      },
    ]));

  const notFinite = (which: string, came: number) => ({
    code: 'not-a-number',
    where: `${which} limit`,
    message: `The ${which} limit must be a finite number; it is ${came}.`,
  });
  const crossed = (lower: number, upper: number) => ({
    code: 'out-of-bounds',
    where: 'limits',
    message: `The lower limit must lie below the upper limit; they are ${lower} and ${upper}.`,
  });
  it.each<[string, Limits, object[]]>([
    ['a lower one that is no number', { lower: Number.NaN }, [notFinite('lower', Number.NaN)]],
    ['an upper one that is no number', { upper: INFINITE }, [notFinite('upper', INFINITE)]],
    // Infinity lies above 5 as well; what has to be mended is the infinity.
    [
      'a lower one without end below an upper one',
      { lower: INFINITE, upper: 5 },
      [notFinite('lower', INFINITE)],
    ],
    [
      'two that are no numbers',
      { lower: INFINITE, upper: Number.NaN },
      [notFinite('lower', INFINITE), notFinite('upper', Number.NaN)],
    ],
    ['crossed ones', { lower: 2, upper: 1 }, [crossed(2, 1)]],
    ['equal ones, which leave nothing between', { lower: 1, upper: 1 }, [crossed(1, 1)]],
  ])('refused: %s', (_, limits, problems) => {
    const found = limitProblems(limits);
    expect(found).toMatchObject(problems);
    expect(found).toHaveLength(problems.length);
  });
});

describe('decision', () => {
  const at = (value: number, limits: Parameters<typeof decide>[1], rule: Rule) =>
    got(decide({ value, u: 5, expanded: 10 }, limits, rule)).verdict;

  // ILAC-G8:09/2019 clauses 4.2.1 to 4.2.3, upper limit 100, U = 10.
  it.each([
    [89.9, 'pass', 'pass', 'pass'],
    [90.1, 'pass', 'fail', 'conditional pass'],
    [99.9, 'pass', 'fail', 'conditional pass'],
    [100.1, 'fail', 'fail', 'conditional fail'],
    [109.9, 'fail', 'fail', 'conditional fail'],
    [110.1, 'fail', 'fail', 'fail'],
  ])('upper limit 100, U 10, y = %f: %s, guarded %s, four outcomes %s', (y, simple, guarded, four) => {
    expect([
      at(y, { upper: 100 }, SIMPLE),
      at(y, { upper: 100 }, GUARDED),
      at(y, { upper: 100 }, FOUR_OUTCOMES),
    ]).toEqual([simple, guarded, four]);
  });

  it('is by the rule that the words of a choice name (clauses as above: 95 with U 10 under 100)', () => {
    expect(DECISION_RULES.map((words) => [words, at(95, { upper: 100 }, ruleOf(words))])).toEqual([
      ['guard band U: four outcomes', 'conditional pass'],
      ['guard band U: pass or fail', 'fail'],
      ['no guard band', 'pass'],
    ]);
  });

  // Lower limit 100, the limits themselves included: the project's own convention, stated where `decide` is documented.
  it.each([
    [110, 'pass'],
    [109.999, 'conditional pass'],
    [100, 'conditional pass'],
    [99.999, 'conditional fail'],
    [90, 'conditional fail'],
    [89.999, 'fail'],
  ])('lower limit 100, U 10: y = %f is a %s', (y, verdict) =>
    expect(at(y, { lower: 100 }, FOUR_OUTCOMES)).toBe(verdict),
  );

  it('takes the worse of two limits', () => {
    const limits = { lower: 100, upper: 140 };
    expect(at(120, limits, FOUR_OUTCOMES)).toBe('pass');
    expect(at(135, limits, FOUR_OUTCOMES)).toBe('conditional pass');
    expect(at(145, limits, FOUR_OUTCOMES)).toBe('conditional fail');
    expect(at(85, limits, FOUR_OUTCOMES)).toBe('fail');
  });

  // On paper: each limit drawn in by U = 10; where both meet, one value is left to pass.
  it.each([
    [{ lower: 100 }, { lower: 110 }, true, 'pass'],
    [{ upper: 140 }, { upper: 130 }, true, 'pass'],
    [{ lower: 100, upper: 140 }, { lower: 110, upper: 130 }, true, 'pass'],
    [{ lower: 105, upper: 125 }, { lower: 115, upper: 115 }, true, 'pass'],
    [{ lower: 110, upper: 120 }, { lower: 120, upper: 110 }, false, 'conditional pass'],
  ])('115 ± 10 within %o passes between %o, which can be met: %s', (limits, acceptance, canPass, verdict) =>
    expect(judge({ value: 115, expanded: 10 }, limits)).toStrictEqual({
      ok: true,
      value: { verdict, guard: 10, acceptance, canPass },
    }),
  );

  // |T| + U is 10⁹, of which a thousand-millionth is 1: so much may be missing and no more, and of nothing nothing.
  it.each([
    [999_999_999, 9e8, 1e8, 'pass'],
    [999_999_998.9, 9e8, 1e8, 'conditional pass'],
    [899_999_999, 9e8, 1e8, 'conditional pass'],
    [899_999_998.9, 9e8, 1e8, 'conditional fail'],
    [799_999_999, 9e8, 1e8, 'conditional fail'],
    [799_999_998.9, 9e8, 1e8, 'fail'],
    [-1_000_000_001, -1e9, 0, 'pass'],
    [0, 0, 0, 'pass'],
  ])(
    'what lies on a limit but for rounding lies on it: %d against T = %d, U = %d is a %s',
    (value, lower, expanded, verdict) =>
      expect(got(judge({ value, expanded }, { lower })).verdict).toBe(verdict),
  );

  it('with U = 0 only passes or fails', () => {
    const y = (value: number) => got(decide({ value, u: 0, expanded: 0 }, { lower: 100 }));
    expect(y(100)).toMatchObject({ verdict: 'pass', probability: 1 });
    expect(y(99.9)).toMatchObject({ verdict: 'fail', probability: 0 });
  });

  it('refuses crossed limits, NaN and a negative guard band with four outcomes', () => {
    const measured = { value: 1, u: 1, expanded: 2 };
    expect(problemsOf(decide(measured, { lower: 2, upper: 1 }))[0]!.code).toBe('out-of-bounds');
    expect(problemsOf(decide({ ...measured, value: Number.NaN }, { lower: 2 }))[0]!.code).toBe(
      'not-a-number',
    );
    const relaxed = { guard: { kind: 'expanded', factor: -0.5 }, outcomes: 'four' } as const;
    expect(problemsOf(decide(measured, { lower: 2 }, relaxed))[0]!.code).toBe('negative');
    expect(
      got(decide({ ...measured, value: 1.5 }, { lower: 2 }, { ...relaxed, outcomes: 'two' })).verdict,
    ).toBe('pass');
  });

  it('never gets worse as the value rises above a lower limit', () => {
    const number = fc.double({ min: -1e3, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(number, number, number, fc.double({ min: 0, max: 100, noNaN: true }), (a, b, lower, u) => {
        const rank = (value: number) =>
          VERDICTS.indexOf(got(decide({ value, u, expanded: 2 * u }, { lower })).verdict);
        expect(rank(Math.max(a, b))).toBeLessThanOrEqual(rank(Math.min(a, b)));
      }),
    );
  });

  it('a pass at w = U has at least the probability that the level of U promises', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 100, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (value, u) => {
          const decision = got(decide({ value, u, expanded: 2 * u }, { lower: 10 }));
          if (decision.verdict === 'pass')
            expect(decision.probability).toBeGreaterThanOrEqual(normalCdf(2) - 1e-12);
        },
      ),
    );
  });

  it("uses Student's t for a finite ν", () => {
    const p = got(decide({ value: 11, u: 1, expanded: 2, dof: 3 }, { lower: 10 })).probability;
    expect(p).toBeCloseTo(tCdf(1, 3), 14);
    expect(tCdf(1, INFINITE)).toBe(normalCdf(1));
  });
});
