import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DECISION_RULES } from '../../src/metrology/rules';
import { samplingPlan } from '../../src/procurement/lot/plan';
import { chance, percent, roundUp, units, whole } from '../../src/procurement/wording/format';
import {
  DEFAULT_STANDARD,
  TENDER_PARTS,
  type TenderInput,
  tender,
} from '../../src/procurement/wording/tender';
import { goodOf, problemsOf } from '../photometry/outcome';

const INPUT: TenderInput = {
  white: 2777.8,
  colour: 2500,
  standard: DEFAULT_STANDARD,
  fraction: 0.8,
  rule: 'guard band U: four outcomes',
  plan: goodOf(samplingPlan(60, 4)),
};

describe('the tender', () => {
  it('asks for rounded-up figures, names standard, conditions, rule and plan (regression)', () => {
    const text = goodOf(tender(INPUT));
    expect(Object.keys(text)).toEqual([...TENDER_PARTS]);
    expect(text.need).toMatch(
      /no less than 2780 lm of white.*no less than 2500 lm of colour.*same picture mode/,
    );
    expect(text.method).toContain('by ISO/IEC 21118:2020, Annex B.');
    expect(goodOf(tender({ ...INPUT, standard: ' Standard A ' })).method).toContain('by Standard A.');
    expect(text.conditions).toMatch(/15 minutes.*beam blocked/);
    expect(text.answer).toMatch(
      /^The offer states .*white light output, colour light output, the standard.*until it is\.$/,
    );
    expect(text.decision).toMatch(/at least 80 %.*expanded uncertainty U/);
    expect(text.lot).toBe(
      'From a delivery of 60 units, 13 are drawn by a recorded draw that both parties can repeat, and measured (ISO 2859-1, single sampling, normal inspection, general level II, AQL 4 %). The delivery is accepted with at most 1 unit nonconforming among them and rejected with 2 or more. Units that do not conform are put right or replaced in either case.',
    );
  });

  it('names the least part and the level as they are, not rounded', () => {
    // A part of 0.875 is 87.5 %, by hand; "88 %" would ask for more than the limit that is then decided by.
    expect(goodOf(tender({ ...INPUT, fraction: 0.875 })).decision).toContain(
      'at least 87.5 % of its rated white',
    );
    expect(goodOf(tender(INPUT)).decision).toContain('for a coverage probability of 95.45 %');
    expect(goodOf(tender({ ...INPUT, level: 0.99 })).decision).toContain(
      'for a coverage probability of 99 %',
    );
    expect(problemsOf(tender({ ...INPUT, level: 1 })).map(({ where }) => where)).toEqual(['level']);
  });

  it('each decision rule has its own words', () => {
    const texts = DECISION_RULES.map((rule) => goodOf(tender({ ...INPUT, rule })).decision);
    expect(new Set(texts).size).toBe(DECISION_RULES.length);
  });

  it('zero acceptance, all units, and no plan', () => {
    const lot = (plan: TenderInput['plan']) => goodOf(tender({ ...INPUT, plan })).lot;
    expect(lot(goodOf(samplingPlan(60, 1)))).toMatch(
      /accepted with no nonconforming unit among them and rejected with 1 or more/,
    );
    expect(lot(goodOf(samplingPlan(8, 1)))).toBe('Every unit of the delivery is measured.');
    expect(lot(undefined)).toBe('Every unit of the delivery is measured.');
  });

  it('takes further conditions after the usual ones', () => {
    const { conditions } = goodOf(tender({ ...INPUT, conditions: [' The room is dark. ', ''] }));
    const usual = goodOf(tender(INPUT)).conditions;
    expect(usual.endsWith('not older than a year.')).toBe(true);
    expect(conditions).toBe(`${usual} The room is dark.`);
  });

  it('names every problem', () => {
    const problems = problemsOf(
      tender({ ...INPUT, white: 0, colour: -1, standard: ' ', fraction: 2.1, step: 0 }),
    );
    expect(problems.map(({ where }) => where)).toEqual([
      'white light output',
      'colour light output',
      'least part of the rated value',
      'rounding step',
      'standard',
    ]);
  });
});

describe('numbers in sentences', () => {
  it('whole numbers are grouped from five digits on (ISO 80000-1, from memory)', () => {
    expect([-940, -4200].map(whole)).toEqual(['-940', '-4200']);
    expect([940, 4200, 12_500, 1_234_567, -12_500].map(whole)).toEqual([
      '940',
      '4200',
      '12\u202f500',
      '1\u202f234\u202f567',
      '-12\u202f500',
    ]);
  });
  it('per cent and chances', () => {
    expect([0.8, 1 / 60, 1, 0.125].map(percent)).toEqual(['80 %', '1.7 %', '100 %', '13 %']);
    expect([1, 0.99999, 0.95, 0.00001, 0].map(chance)).toEqual([
      '100 %',
      'more than 99.9 %',
      '95 %',
      'less than 0.1 %',
      '0 %',
    ]);
    // What rounds to the bound is not beyond it.
    expect([0.999, 0.9991, 0.001, 0.0009].map(chance)).toEqual([
      '99.9 %',
      'more than 99.9 %',
      '0.1 %',
      'less than 0.1 %',
    ]);
    expect([units(1), units(2), units(0)]).toEqual(['1 unit', '2 units', '0 units']);
  });
  it('what is asked for is never rounded down, nor by a whole step more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        fc.constantFrom(1, 5, 10, 50, 100),
        (value, step) => {
          const up = roundUp(value, step);
          expect(up).toBeGreaterThanOrEqual(value * (1 - 1e-11));
          expect(up - value).toBeLessThan(step);
          expect(up % step).toBe(0);
        },
      ),
    );
    expect(roundUp(0.1 * 3 * 10_000, 1000)).toBe(3000);
  });
});
