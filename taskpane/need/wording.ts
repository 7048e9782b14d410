import { DECISION_RULES, type DecisionRule } from '../../src/metrology/words';
import { LEAST_PART } from '../../src/photometry/bounds';
import { bad, chain, good, type Outcome } from '../../src/photometry/outcome';
import { USUAL_LEVEL } from '../../src/procurement/lot/letter';
import { LISTED_AQLS, type ListedAql } from '../../src/procurement/lot/master';
import { type Inspection, type SamplingPlan, samplingPlan } from '../../src/procurement/lot/plan';
import { ASKED_STEP, roundUp, whole } from '../../src/procurement/wording/format';
import {
  DEFAULT_STANDARD,
  TENDER_PARTS,
  type TenderPart,
  tender,
} from '../../src/procurement/wording/tender';
import { usual } from '../../src/sheets/setup/fields';
import { inspectionOf } from '../accept/form';
import { type ReadNumber, readNumber } from '../parse/readnumber';
import { typedAs } from '../setup/value';

/** Figures asked for are rounded up to this, lm, in the wording and in the offers step. */
export const STEP = ASKED_STEP;

type TenderNumber = 'fraction' | 'units';
export interface TenderTexts {
  readonly standard: string;
  /** Per cent of the rated value. */
  readonly fraction: string;
  readonly rule: string;
  /** Units to be delivered; empty: every unit is measured. */
  readonly units: string;
  readonly aql: string;
  readonly level: string;
  readonly severity: string;
}

/** Where a contract names none (common practice). */
const USUAL_AQL: ListedAql = 2.5;

/** 80 %: the usual floor for a delivered unit (common practice). */
export const START_TENDER: TenderTexts = {
  standard: DEFAULT_STANDARD,
  fraction: typedAs('rated.minimumFraction', usual('rated.minimumFraction')),
  rule: DECISION_RULES[0],
  units: '',
  aql: String(USUAL_AQL),
  level: USUAL_LEVEL,
  severity: 'normal',
};

export type Words = Readonly<Record<TenderPart, string>>;

export interface UnderstoodTender {
  readonly standard: string | undefined;
  readonly numbers: Readonly<Record<TenderNumber, ReadNumber>>;
  readonly rule: DecisionRule;
  readonly aql: ListedAql;
  readonly inspection: Required<Inspection>;
  readonly isFit: boolean;
  /** The paragraphs for a need of so many lumens. */
  readonly words: (asked: { readonly white: number; readonly colour: number }) => Outcome<Words>;
}

const STANDARD_MAX = 120;

/** Texts of the wording's fields → paragraphs, or what is wrong with which field. */
export function understandTender(texts: TenderTexts): UnderstoodTender {
  const fraction = readNumber(texts.fraction, {
    what: 'least part',
    unit: '%',
    min: 100 * LEAST_PART.min,
    max: 100 * LEAST_PART.max,
  });
  const units = wholeNumber(
    readNumber(texts.units, { what: 'number of units', unit: '', min: 2, max: 500_000 }),
  );
  const standard =
    texts.standard.trim() === ''
      ? 'Name the measuring standard with its year.'
      : texts.standard.length > STANDARD_MAX
        ? `At most ${STANDARD_MAX} characters.`
        : undefined;
  const numbers = {
    fraction: texts.fraction.trim() === '' ? { problem: 'A least part is needed.' } : fraction,
    units,
  };
  const rule = DECISION_RULES.find((each) => each === texts.rule) ?? DECISION_RULES[0];
  const aql = LISTED_AQLS.find((each) => String(each) === texts.aql) ?? USUAL_AQL;
  const inspection = inspectionOf(texts);
  const isFit = !standard && Object.values(numbers).every(({ problem, question }) => !problem && !question);
  return {
    standard,
    numbers,
    rule,
    aql,
    inspection,
    isFit,
    words: ({ white, colour }) =>
      isFit
        ? chain(planOf(units.value, aql, inspection), (plan) =>
            tender({
              white,
              colour,
              standard: texts.standard,
              fraction: fraction.value! / 100,
              rule,
              ...(plan ? { plan } : {}),
              step: STEP,
            }),
          )
        : bad(),
  };
}

function wholeNumber(read: ReadNumber): ReadNumber {
  return read.value === undefined || Number.isInteger(read.value)
    ? read
    : { problem: `Number of units: it must be a whole number; it is ${read.value}.` };
}

function planOf(
  units: number | undefined,
  aql: ListedAql,
  inspection: Inspection,
): Outcome<SamplingPlan | undefined> {
  return units === undefined ? good(undefined) : samplingPlan(units, aql, inspection);
}

/** A figure as the wording names it: `2910`. */
export function askedFigure(lumens: number): string {
  return whole(roundUp(lumens, STEP));
}

/** The paragraphs under their headings, for pasting into a tender. */
export function asText(words: Words): string {
  return TENDER_PARTS.map((part) => words[part])
    .filter((text) => text.trim() !== '')
    .join('\n\n');
}
