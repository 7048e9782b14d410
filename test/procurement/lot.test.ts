import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Verdict } from '../../src/metrology/decision';
import { CODE_LETTERS, codeLetter, INSPECTION_LEVELS } from '../../src/procurement/lot/letter';
import { AQLS, masterPlan, SEVERITIES } from '../../src/procurement/lot/master';
import { inspectionWords, samplingPlan } from '../../src/procurement/lot/plan';
import { protection } from '../../src/procurement/lot/protection';
import { SWITCHING, switchingWords } from '../../src/procurement/lot/switching';
import { lotVerdict } from '../../src/procurement/lot/verdict';
import { goodOf, problemsOf } from '../photometry/outcome';
import { MASTER, MASTER_AQLS, PLAN_AQLS, PLANS } from '../references/lots';
import { CODE_LETTER_TABLE, SINGLE_SAMPLING } from '../references/singlesampling';
import { count } from './count';

describe('plans for AQL 1.0, 2.5 and 4.0 (MIL-STD-105E / Z1.4; NIBS and AQLSchemes agree)', () => {
  const cells = PLANS.flatMap(([[from, to], letter, ...plans]) =>
    plans.map((plan, i) => ({ from, to, letter, aql: PLAN_AQLS[i]!, plan })),
  );
  it.each(cells)('lots of $from to $to, AQL $aql: $plan', ({ from, to, letter, aql, plan }) => {
    const [size, accept] = plan.split(',').map(Number);
    for (const lot of [from, to]) {
      expect(goodOf(codeLetter(lot))).toBe(letter);
      const found = goodOf(samplingPlan(lot, aql));
      expect([found.tableSize, found.accept, found.reject]).toEqual([size, accept, accept! + 1]);
      expect(found.inspectsAll).toBe(size! >= lot);
      expect(found.sampleSize).toBe(Math.min(size!, lot));
    }
  });
  it('a lot of 14 with 13 to inspect is sampled; one of 13 is inspected whole', () => {
    expect(goodOf(samplingPlan(14, 1))).toMatchObject({ sampleSize: 13, inspectsAll: false });
    expect(goodOf(samplingPlan(13, 1))).toMatchObject({ sampleSize: 13, inspectsAll: true });
  });
});

/** Sample size of a letter: that of the plan with which its own row begins or goes on. */
const sizeOf = (letter: string) =>
  AQLS.map((aql) => masterPlan(letter as 'A', aql)).find((plan) => plan.letter === letter)?.sampleSize;

describe('the whole master table (NIBS "AC-TABLE", from MIL-STD-105E)', () => {
  const rows = MASTER.map(([largest, letter, size, cells]) => ({
    largest,
    letter,
    size,
    cells: cells.split(' '),
  }));
  /** The plan an arrow leads to, by walking the printed table. */
  const followed = (row: number, column: number): { letter: string; size: number; reject: number } => {
    const cell = rows[row]!.cells[column]!;
    if (cell === 'v') return followed(row + 1, column);
    if (cell === '^') return followed(row - 1, column);
    return { letter: rows[row]!.letter, size: rows[row]!.size, reject: Number(cell) };
  };
  it.each(rows.map((row, i) => ({ ...row, i })))('letter $letter', ({ largest, letter, size, i }) => {
    const lot = largest === Number.POSITIVE_INFINITY ? 600_000 : largest;
    expect(goodOf(codeLetter(lot))).toBe(letter);
    expect(sizeOf(letter)).toBe(size);
    if (largest !== Number.POSITIVE_INFINITY)
      expect(goodOf(codeLetter(largest + 1))).toBe(rows[i + 1]!.letter);
    MASTER_AQLS.forEach((aql, column) => {
      const wanted = followed(i, column);
      const plan = goodOf(samplingPlan(lot, aql));
      expect([plan.planLetter, plan.tableSize, plan.reject]).toEqual([
        wanted.letter,
        wanted.size,
        wanted.reject,
      ]);
    });
  });

  it.each([
    // Zero acceptance stands at H 50 for 0.25 and at G 32 for 0.4; from memory.
    [0.25, 90, 50, 0],
    [0.4, 90, 32, 0],
    [0.25, 10_000, 200, 1],
    [0.4, 3200, 125, 1],
    [0.4, 10_000, 200, 2],
  ])('AQL %d, lot %d: %d,%d (from memory)', (aql, lot, size, accept) => {
    expect(goodOf(samplingPlan(lot, aql))).toMatchObject({ tableSize: size, accept });
  });

  it('a stricter AQL never allows more bad units in the same sample', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 700_000 }), (lot) => {
        const parts = AQLS.map((aql) => goodOf(samplingPlan(lot, aql))).map(
          ({ accept, tableSize }) => accept / tableSize,
        );
        for (let i = 1; i < parts.length; i++) expect(parts[i]).toBeGreaterThanOrEqual(parts[i - 1]!);
      }),
    );
  });
});

describe('all 26 AQLs, seven levels, three severities (MIL-STD-105E / Z1.4 as AQLSchemes 1.7-2 carries them)', () => {
  it.each(SEVERITIES)('%s inspection: every plan of letters A to R', (severity) => {
    SINGLE_SAMPLING[severity].forEach((line, row) => {
      const plans = AQLS.map((aql) => masterPlan(CODE_LETTERS[row]!, aql, severity));
      expect(
        plans.map(({ sampleSize, accept, reject }) => `${sampleSize},${accept},${reject}`).join(' '),
      ).toBe(line);
    });
  });

  it('code letters of every range of lots at every level', () => {
    let smallest = 2;
    for (const [largest, letters] of CODE_LETTER_TABLE) {
      const lots = [smallest, Number.isFinite(largest) ? largest : 900_000];
      for (const lot of lots)
        expect(INSPECTION_LEVELS.map((level) => goodOf(codeLetter(lot, level))).join(' ')).toBe(letters);
      smallest = largest + 1;
    }
  });

  /** Probability of acceptance of lots of a series: binomial for percent nonconforming, Poisson for faults per 100. */
  const accepted = (n: number, c: number, aql: number) => {
    let [term, sum] = [aql <= 10 ? (1 - aql / 100) ** n : Math.exp((-n * aql) / 100), 0];
    for (let i = 0; i <= c; i++) {
      sum += term;
      term *= aql <= 10 ? ((n - i) / (i + 1)) * (aql / 100 / (1 - aql / 100)) : (n * aql) / 100 / (i + 1);
    }
    return sum;
  };

  // The standard means lots at the AQL to be accepted mostly: 88 % to 99.8 % (its tables X, from memory).
  it('a lot of the quality of its AQL is mostly accepted under normal inspection, and tightened takes fewer', () => {
    for (const letter of CODE_LETTERS.slice(0, -1))
      for (const aql of AQLS) {
        const [plain, tight] = (['normal', 'tightened'] as const).map((severity) => {
          const { letter: row, sampleSize, accept } = masterPlan(letter, aql, severity);
          return { row, chance: accepted(sampleSize, accept, aql) };
        });
        expect(plain!.chance, `${letter} ${aql}`).toBeGreaterThan(0.86);
        expect(plain!.chance, `${letter} ${aql}`).toBeLessThan(0.9999);
        if (plain!.row === tight!.row) expect(tight!.chance).toBeLessThanOrEqual(plain!.chance);
      }
  });
});

describe('what has no plan', () => {
  it.each([
    [1, 1, /lot size must be a whole number of at least 2/],
    [2.5, 1, /lot size must be a whole number/],
    [Number.NaN, 1, /lot size/],
    [60, 3, /AQL must be one of 0.01, 0.015, .*, 2.5, 4, 6.5, 10, .*, 1000/],
  ])('lot %d, AQL %d', (lot, aql, message) => {
    expect(problemsOf(samplingPlan(lot, aql))[0]!.message).toMatch(message);
  });
});

describe('the verdict (ISO 2859-1: accept with Ac or fewer, reject with Re or more)', () => {
  const plan = { sampleSize: 13, accept: 1 };
  it.each([
    [13, 0, 'accepted', 0],
    [13, 1, 'accepted', 0],
    [13, 2, 'rejected', 0],
    [5, 2, 'rejected', 8],
    [5, 1, 'not finished', 8],
    [0, 0, 'not finished', 13],
  ])('%d inspected, %d nonconforming: %s', (inspected, nonconforming, state, remaining) => {
    expect(goodOf(lotVerdict(plan, { inspected, nonconforming }))).toEqual({ state, remaining });
  });
  it.each([
    [5, 6, /more nonconforming units \(6\) than inspected ones \(5\)/],
    [14, 0, /14 units were inspected, the plan is for 13/],
    [-1, 0, /number of units inspected/],
    [3, 0.5, /number of nonconforming units/],
  ])('%d inspected, %d nonconforming is refused', (inspected, nonconforming, message) => {
    expect(problemsOf(lotVerdict(plan, { inspected, nonconforming }))[0]!.message).toMatch(message);
  });
  it('a plan that can reject nothing is none', () => {
    const problem = problemsOf(
      lotVerdict({ sampleSize: 13, accept: 13 }, { inspected: 13, nonconforming: 13 }),
    )[0]!;
    expect(problem.message).toBe(
      'The acceptance number must be smaller than the sample, or no lot is ever rejected; they are 13 and 13.',
    );
  });
  it('counts decisions on units by the way chosen', () => {
    const verdicts: Verdict[] = ['pass', 'conditional pass', 'conditional fail', 'fail', 'pass'];
    expect(count(verdicts, 'value')).toEqual({ inspected: 5, nonconforming: 2 });
    expect(count(verdicts, 'strict')).toEqual({ inspected: 5, nonconforming: 3 });
    expect(count(verdicts, 'lenient')).toEqual({ inspected: 5, nonconforming: 1 });
  });
});

describe('what a plan does and does not say about one lot', () => {
  it('lot of 60 at AQL 4: 13 inspected, 1 allowed (regression)', () => {
    const text = goodOf(protection(goodOf(samplingPlan(60, 4))));
    // floor(60 × 4 %) = 2 units at the AQL.
    expect(text[1]).toMatch(
      /A lot of 60 with 2 units nonconforming is accepted with a probability of 95.6 %/,
    );
    expect(text).toHaveLength(7);
    expect(text.join(' ')).toMatch(/promise about the series.*ISO 2859-2.*put right or replaced/);
  });
  it('a lot that is inspected whole has no sampling risk, only that of the day', () => {
    expect(goodOf(protection(goodOf(samplingPlan(8, 1))))).toEqual([
      'All 8 units are inspected, because the plan asks for 13: nothing is left to chance but the measurement itself.',
      'The result holds for what was measured, in the mode and on the day it was measured.',
    ]);
  });

  // Plans of the tables above; numbers of units and probabilities by whole-number arithmetic (math.comb of Python 3):
  // the last with 95 % or more, the first with 10 % or less. The words are ours (regression).
  it.each([
    // 60, 13 of them, at most 1: 0.9559 at 2, 0.0976 at 15.
    [
      [60, 4, 'normal'],
      /at most 2 units nonconforming \(3\.3 %\) is accepted with a probability of at least 95 %: the producer’s risk/,
      /^Only from 15 units nonconforming on \(25 %\) is a lot rejected with a probability of at least 90 %: the consumer’s risk/,
      /^A sample with no more than 1 unit nonconforming is no proof/,
      undefined,
    ],
    // 60, 13 of them, none: 47 ÷ 60 at 1 already, 0.0922 at 9.
    [
      [60, 1, 'normal'],
      /^Even one nonconforming unit in the lot lowers .* below 95 %: the producer’s risk is higher than the usual 5 %/,
      /^Only from 9 units nonconforming on \(15 %\)/,
      /^A sample without a nonconforming unit is no proof/,
      undefined,
    ],
    // 60, 5 of them, rejected with 2: 0.9684 at 4, 0.0908 at 35.
    [
      [60, 4, 'reduced'],
      /at most 4 units nonconforming \(6\.7 %\)/,
      /^Only from 35 units nonconforming on \(58 %\)/,
      /^A sample with no more than 1 unit nonconforming/,
      'With 1 nonconforming in the sample the lot is accepted, and the next lot is inspected normally.',
    ],
    // 60, 5 of them, accepted with 1, rejected with 4: 0.9535 at 21, 0.0992 at 53.
    [
      [60, 10, 'reduced'],
      /at most 21 units nonconforming \(35 %\)/,
      /^Only from 53 units nonconforming on \(88 %\)/,
      /^A sample with no more than 3 units nonconforming/,
      'With 2 to 3 nonconforming in the sample the lot is accepted, and the next lot is inspected normally.',
    ],
  ] as const)('%j', ([lot, aql, severity], producer, consumer, proof, between) => {
    const text = goodOf(protection(goodOf(samplingPlan(lot, aql, { severity }))));
    expect(text[2]).toMatch(producer);
    expect(text[3]).toMatch(consumer);
    expect(text[4]).toMatch(proof);
    expect(text[7]).toBe(between);
  });
  it('never reads as certain what is not', () => {
    // Above 10 an AQL counts faults per 100 units; plans of nonconforming units end there.
    const ofUnits = AQLS.filter((aql) => aql <= 10);
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 5000 }), fc.constantFrom(...ofUnits), (lot, aql) => {
        const text = goodOf(protection(goodOf(samplingPlan(lot, aql)))).join(' ');
        expect(text).not.toMatch(/NaN|undefined|Infinity|\b1 units/);
      }),
    );
  });
});

describe('the lots that follow (switching rules of ISO 2859-1:1999, 9.3, from memory)', () => {
  it.each([
    [
      'normal',
      [
        ['tightened', /^two of five or fewer consecutive lots are rejected at first inspection$/],
        [
          'reduced',
          /^ten consecutive lots.*switching score of 30.*production is steady and the buyer agrees$/,
        ],
      ],
    ],
    [
      'tightened',
      [
        ['normal', /^five consecutive lots are accepted at first inspection$/],
        ['stopped', /^five lots in all are rejected under tightened inspection.*mended the cause$/],
      ],
    ],
    [
      'reduced',
      [
        ['normal', /^a lot is rejected$/],
        // The gap, as MIL-STD-105E has it (from memory).
        ['normal', /more nonconforming units than its acceptance number and fewer than its rejection number/],
        ['normal', /^production becomes irregular or is interrupted, or the buyer asks for it$/],
      ],
    ],
  ] as const)('after %s inspection', (severity, rules) => {
    expect(SWITCHING[severity]).toEqual(
      rules.map(([next, when]) => ({ next, when: expect.stringMatching(when) })),
    );
  });
  it('in words (regression)', () => {
    expect(switchingWords('tightened')).toBe(
      'Of a series of lots from one maker, tightened inspection becomes normal when five consecutive lots are accepted at first inspection; inspection stops when five lots in all are rejected under tightened inspection: no more lots are taken until the maker has mended the cause.',
    );
    expect(switchingWords('reduced')).toMatch(
      /becomes normal when a lot is rejected; normal when a lot has more/,
    );
  });
  it('levels are general or special', () => {
    const words = (level: 'S-1' | 'III') => inspectionWords({ level, severity: 'reduced' });
    expect(words('S-1')).toBe('reduced inspection, special level S-1');
    expect(words('III')).toBe('reduced inspection, general level III');
  });
});
