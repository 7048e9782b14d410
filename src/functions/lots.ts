import { bad, chain, good, invalid, type Outcome } from '../photometry/outcome';
import { operatingCurve, riskPoints } from '../procurement/lot/curve';
import { drawSample } from '../procurement/lot/draw';
import { codeLetter, INSPECTION_LEVELS, type InspectionLevel, USUAL_LEVEL } from '../procurement/lot/letter';
import { AQLS, SEVERITIES, type Severity } from '../procurement/lot/master';
import { ANY_PLAN_SOURCE, PLAN_SOURCE, samplingPlan } from '../procurement/lot/plan';
import { acceptProbability, LARGEST_LOT_SIZE, streamProbability } from '../procurement/lot/probability';
import { SWITCHING } from '../procurement/lot/switching';
import { lotVerdict } from '../procurement/lot/verdict';
import { freeText, known, nameColumn } from './lists';
import { choice, number } from './params';
import { define } from './record';

const lotSize = () => number('units in the lot', '', { min: 2, max: LARGEST_LOT_SIZE, whole: true });
const aql = () => number(`acceptance quality limit: ${AQLS.join(', ')}`, '% nonconforming', { moreThan: 0 });
const sampleSize = () => number('units in the sample', '', { min: 1, max: LARGEST_LOT_SIZE, whole: true });
const acceptNumber = () =>
  number('nonconforming units in the sample with which the lot is still accepted', '', {
    min: 0,
    whole: true,
  });
const level = () => choice('inspection level', 'INSPECTIONLEVEL', INSPECTION_LEVELS, USUAL_LEVEL);
const severity = () => choice('severity of the inspection', 'SEVERITY', SEVERITIES, SEVERITIES[0]);
const planned = () => ({
  lotSize: lotSize(),
  qualityLimit: aql(),
  inspectionLevel: level(),
  severity: severity(),
});
/** One number of the plan that the arguments ask for. */
const ofPlan =
  (number: 'sampleSize' | 'accept' | 'reject') =>
  ({ lotSize, qualityLimit, inspectionLevel, severity }: Asked): Outcome<number> =>
    chain(samplingPlan(lotSize, qualityLimit, { level: inspectionLevel, severity }), (plan) =>
      good(plan[number]),
    );
interface Asked {
  readonly lotSize: number;
  readonly qualityLimit: number;
  readonly inspectionLevel: InspectionLevel;
  readonly severity: Severity;
}
const count = (what: string) => number(what, '', { min: 0, whole: true });

const MASTER =
  'master table by code letter and AQL, arrows followed; above 10 the AQL counts faults per 100 units';
const EXACT = 'hypergeometric distribution (standard mathematics): exact for one lot, type A';

export const lotFunctions = [
  define({
    id: 'CODELETTER',
    summary: 'Code letter of a lot size; general inspection level II unless another is given.',
    params: { lotSize: lotSize(), inspectionLevel: level() },
    result: { kind: 'text', unit: '' },
    formula: 'table of lot sizes by inspection level',
    source: ANY_PLAN_SOURCE,
    example: '=LIGHT.CODELETTER(60)',
    compute: ({ lotSize, inspectionLevel }) => codeLetter(lotSize, inspectionLevel),
  }),
  define({
    id: 'SAMPLESIZE',
    summary: 'Units of a lot to inspect; all of them where the plan’s sample is as large as the lot.',
    params: planned(),
    result: { kind: 'number', unit: '' },
    formula: MASTER,
    source: ANY_PLAN_SOURCE,
    example: '=LIGHT.SAMPLESIZE(60,2.5)',
    compute: ofPlan('sampleSize'),
  }),
  define({
    id: 'ACCEPTNUMBER',
    summary: 'Nonconforming units in the sample with which the lot is still accepted.',
    params: planned(),
    result: { kind: 'number', unit: '' },
    formula: MASTER,
    source: ANY_PLAN_SOURCE,
    example: '=LIGHT.ACCEPTNUMBER(60,2.5)',
    compute: ofPlan('accept'),
  }),
  define({
    id: 'REJECTNUMBER',
    summary:
      'Nonconforming units in the sample with which the lot is rejected: one more than accepted, but for reduced inspection, where a lot in between is accepted and the next one inspected normally.',
    params: planned(),
    result: { kind: 'number', unit: '' },
    formula: MASTER,
    source: `${ANY_PLAN_SOURCE}; ISO 2859-1:1999 has no gap in reduced inspection (from memory)`,
    example: '=LIGHT.REJECTNUMBER(60,2.5,"II","reduced")',
    compute: ofPlan('reject'),
  }),
  define({
    id: 'SWITCHING',
    summary: 'When the inspection of a series of lots becomes tightened, normal or reduced, as a table.',
    params: { severity: severity() },
    result: { kind: 'table', unit: '' },
    formula: 'switching rules of the standard, in words',
    source: 'ISO 2859-1:1999 clause 9.3 and MIL-STD-105E (from memory)',
    example: '=LIGHT.SWITCHING("normal")',
    compute: ({ severity }) =>
      good([['when', 'then inspection is'], ...SWITCHING[severity].map(({ when, next }) => [when, next])]),
  }),
  define({
    id: 'ACCEPTPROBABILITY',
    summary: 'Probability of accepting a lot that holds a number of nonconforming units.',
    params: {
      lotSize: lotSize(),
      sampleSize: sampleSize(),
      acceptanceNumber: acceptNumber(),
      nonconformingCount: count('nonconforming units in the whole lot'),
    },
    result: { kind: 'number', unit: 'probability' },
    formula: 'P = Σ i = 0..c of C(D,i)·C(N − D,n − i) ÷ C(N,n)',
    source: EXACT,
    example: '=LIGHT.ACCEPTPROBABILITY(50,13,1,5)',
    compute: ({ acceptanceNumber, nonconformingCount, ...sizes }) =>
      acceptProbability({ ...sizes, accept: acceptanceNumber }, nonconformingCount),
  }),
  define({
    id: 'STREAMPROBABILITY',
    summary: 'Probability of accepting lots of a long series with a given fraction nonconforming.',
    params: {
      sampleSize: sampleSize(),
      acceptanceNumber: acceptNumber(),
      fraction: number('fraction nonconforming', 'part of 1', { min: 0, max: 1 }),
    },
    result: { kind: 'number', unit: 'probability' },
    formula: 'P = Σ i = 0..c of C(n,i)·pⁱ·(1 − p)ⁿ⁻ⁱ',
    source: 'binomial distribution (standard mathematics): for a series of lots, type B',
    example: '=LIGHT.STREAMPROBABILITY(20,0,0.05)',
    compute: ({ sampleSize, acceptanceNumber, fraction }) =>
      streamProbability(sampleSize, acceptanceNumber, fraction),
  }),
  define({
    id: 'ACCEPTCURVE',
    summary:
      'Operating characteristic of a plan for one lot as a table: nonconforming units, fraction, probability.',
    params: { lotSize: lotSize(), sampleSize: sampleSize(), acceptanceNumber: acceptNumber() },
    result: { kind: 'table', unit: 'units, part of 1, probability' },
    formula: 'P for each number of nonconforming units, until it falls below 0.001',
    source: EXACT,
    example: '=LIGHT.ACCEPTCURVE(50,13,1)',
    compute: ({ acceptanceNumber, ...sizes }) =>
      chain(operatingCurve({ ...sizes, accept: acceptanceNumber }), (points) =>
        good([
          ['nonconforming', 'fraction', 'probability'],
          ...points.map(({ nonconforming, fraction, probability }) => [nonconforming, fraction, probability]),
        ]),
      ),
  }),
  define({
    id: 'RISKPOINTS',
    summary: 'The worst lot still accepted at 95 % or more, and the best lot accepted at 10 % or less.',
    params: { lotSize: lotSize(), sampleSize: sampleSize(), acceptanceNumber: acceptNumber() },
    result: { kind: 'table', unit: 'units, part of 1, probability' },
    formula: 'largest D with P ≥ 0.95; smallest D with P ≤ 0.10',
    source: `${EXACT}; 5 % and 10 %: common practice`,
    example: '=LIGHT.RISKPOINTS(50,13,1)',
    compute: ({ acceptanceNumber, ...sizes }) =>
      chain(riskPoints({ ...sizes, accept: acceptanceNumber }), ({ producer, consumer }) =>
        good([
          ['', 'nonconforming', 'fraction', 'probability'],
          ['producer’s risk', producer.nonconforming, producer.fraction, producer.probability],
          ['consumer’s risk', consumer.nonconforming, consumer.fraction, consumer.probability],
        ]),
      ),
  }),
  define({
    id: 'LOTVERDICT',
    summary: 'The lot by the counts of its sample: accepted, rejected or not finished.',
    params: {
      sampleSize: sampleSize(),
      acceptanceNumber: acceptNumber(),
      inspectedCount: count('units of the sample decided so far'),
      nonconformingCount: count('nonconforming ones among them'),
      conformingCount: known(
        'conforming ones among them, which then have to add up with the others to those decided: an empty count cannot pass for 0',
        '',
      ),
    },
    result: { kind: 'text', unit: '' },
    formula:
      'rejected with more than the acceptance number; accepted when the whole sample is decided with no more',
    source: PLAN_SOURCE,
    example: '=LIGHT.LOTVERDICT(13,1,13,1)',
    compute: ({ sampleSize, acceptanceNumber, inspectedCount, nonconformingCount, conformingCount }) => {
      const inspected = inspectedCount;
      if (conformingCount !== undefined && conformingCount + nonconformingCount !== inspected) {
        const message = `Conforming and nonconforming units must add up to the inspected ones; they are ${conformingCount}, ${nonconformingCount} and ${inspected}.`;
        return bad(invalid('out-of-bounds', 'counts', message));
      }
      return chain(
        lotVerdict(
          { sampleSize, accept: acceptanceNumber },
          { inspected, nonconforming: nonconformingCount },
        ),
        ({ state }) => good(state),
      );
    },
  }),
  define({
    id: 'DRAWSAMPLE',
    summary:
      'Draws a sample of serials that anybody can repeat from the list and the seed; the order of the list does not matter.',
    params: {
      serial: nameColumn('serials of every unit of the lot'),
      sampleSize: sampleSize(),
      seed: freeText('seed: any number or text fixed in public after the list was closed'),
    },
    result: { kind: 'table', unit: '' },
    formula: 'ticket = SHA-256(seed, line feed, serial); the smallest tickets are the sample',
    source: 'SHA-256: FIPS 180-4; drawing by tickets: the method is ours',
    example: '=LIGHT.DRAWSAMPLE(A2:A61,13,"4 2 6 1")',
    compute: ({ serial, sampleSize, seed }) =>
      chain(drawSample(serial, sampleSize, seed), ({ drawn }) =>
        good([
          ['place', 'serial', 'ticket'],
          ...drawn.map(({ serial, ticket }, i) => [i + 1, serial, ticket]),
        ]),
      ),
  }),
];
