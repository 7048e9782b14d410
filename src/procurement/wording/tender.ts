import { notAboveZero, notProbability } from '../../metrology/check';
import type { DecisionRule } from '../../metrology/rules';
import { DEFAULT_LEVEL } from '../../metrology/words';
import { LEAST_PART } from '../../photometry/bounds';
import { bad, good, missing, type Outcome } from '../../photometry/outcome';
import { notWithin } from '../check';
import { inspectionWords, type SamplingPlan } from '../lot/plan';
import { ASKED_STEP, exactPercent, roundUp, units, whole } from './format';

/** What the tender asks for. No maker and no model is ever part of it. */
export interface TenderInput {
  /** Light output to ask for, lm, as the need gives it; rounded up here. */
  readonly white: number;
  readonly colour: number;
  /** The measuring standard with its year, in the buyer's words. */
  readonly standard: string;
  /** Further conditions, each a whole sentence; added after the usual ones. */
  readonly conditions?: readonly string[];
  /** Least part of the rated value that a delivered unit must show. */
  readonly fraction: number;
  readonly rule: DecisionRule;
  /** Level of confidence of every U. */
  readonly level?: number;
  /** Left out where every unit is measured. */
  readonly plan?: SamplingPlan;
  /** Asked figures are rounded up to a multiple of this, lm. */
  readonly step?: number;
}

export const TENDER_PARTS = ['need', 'method', 'conditions', 'decision', 'lot', 'answer'] as const;
export type TenderPart = (typeof TENDER_PARTS)[number];

export const DEFAULT_STANDARD = 'ISO/IEC 21118:2020, Annex B';

/** The paragraphs of a tender, each a draft to be edited. The 80 % floor is a convention, so the part is named. */
export function tender(input: TenderInput): Outcome<Record<TenderPart, string>> {
  const { white, colour, standard, conditions = [], fraction, rule, plan } = input;
  const { level = DEFAULT_LEVEL, step = ASKED_STEP } = input;
  const problems = [
    ...notAboveZero(white, 'white light output'),
    ...notAboveZero(colour, 'colour light output'),
    ...notWithin(fraction, 'least part of the rated value', LEAST_PART),
    ...notProbability(level, 'level'),
    ...notAboveZero(step, 'rounding step'),
  ];
  if (standard.trim() === '')
    problems.push(missing('standard', 'Name the measuring standard with its year.'));
  if (problems.length > 0) return bad(...problems);
  return good({
    need: `Each unit is rated at no less than ${whole(roundUp(white, step))} lm of white light output and no less than ${whole(roundUp(colour, step))} lm of colour light output, both in one and the same picture mode, which the bidder names.`,
    method: `White light output is the mean of nine illuminances, taken at the centres of three by three equal parts of the image, times the image area, by ${standard.trim()}. Colour light output is the sum of red, green and blue light output, each full field measured in the same way.`,
    conditions: [...USUAL_CONDITIONS, ...conditions.map((text) => text.trim()).filter(Boolean)].join(' '),
    decision: decisionText(fraction, rule, level),
    lot: lotText(plan),
    answer:
      'The offer states for the mode named: white light output, colour light output, the standard both were measured by, electric power, hours until the light source is replaced with the part of the light output left by then, and the price of the replacement. A figure that is not stated counts as not offered until it is.',
  });
}

const USUAL_CONDITIONS = [
  'The unit has run for at least 15 minutes.',
  'The image is square and fills the measured area without digital correction.',
  'Light that does not come from the unit is measured with its beam blocked and taken off.',
  'The meter is held in the plane of the image and faces the lens; its calibration is not older than a year.',
];

const RULE_TEXTS: Readonly<Record<DecisionRule, string>> = {
  'guard band U: four outcomes':
    'A result that lies above this limit by at least its expanded uncertainty U passes; one that lies below it by more than U fails. In between, a result at or above the limit is a conditional pass and one below it a conditional fail: the unit is then measured again with a smaller uncertainty or the parties agree on it.',
  'guard band U: pass or fail':
    'A unit passes if its result lies above this limit by at least its expanded uncertainty U; otherwise it fails.',
  'no guard band':
    'A unit passes if its result is at or above this limit, whatever the uncertainty; otherwise it fails.',
};

function decisionText(fraction: number, rule: DecisionRule, level: number): string {
  return `A delivered unit must show at least ${exactPercent(fraction)} of its rated white and of its rated colour light output. ${RULE_TEXTS[rule]} The expanded uncertainty is stated with every result, for a coverage probability of ${exactPercent(level)}.`;
}

function lotText(plan: SamplingPlan | undefined): string {
  if (plan === undefined || plan.inspectsAll) return 'Every unit of the delivery is measured.';
  const { lotSize, aql, sampleSize, reject } = plan;
  const accept = reject - 1;
  return `From a delivery of ${units(lotSize)}, ${whole(sampleSize)} are drawn by a recorded draw that both parties can repeat, and measured (ISO 2859-1, single sampling, ${inspectionWords(plan)}, AQL ${aql} %). The delivery is accepted with ${accept === 0 ? 'no nonconforming unit' : `at most ${units(accept)} nonconforming`} among them and rejected with ${whole(reject)} or more. Units that do not conform are put right or replaced in either case.`;
}
