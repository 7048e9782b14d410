import { DECISION_RULES, type DecisionRule } from '../../src/metrology/words';
import { bad, chain, good, type Outcome } from '../../src/photometry/outcome';
import { AQLS } from '../../src/procurement/lot/master';
import { type SamplingPlan, samplingPlan } from '../../src/procurement/lot/plan';
import { ASKED_STEP, roundUp, whole } from '../../src/procurement/wording/format';
import {
  DEFAULT_STANDARD,
  TENDER_PARTS,
  type TenderPart,
  tender,
} from '../../src/procurement/wording/tender';
import { type ReadNumber, readNumber } from './number';

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
}

/** 80 %: the usual floor for a delivered unit (common practice). */
export const START_TENDER: TenderTexts = {
  standard: DEFAULT_STANDARD,
  fraction: '80',
  rule: DECISION_RULES[0],
  units: '',
  aql: '2.5',
};

export type Words = Readonly<Record<TenderPart, string>>;

export interface UnderstoodTender {
  readonly standard: string | undefined;
  readonly numbers: Readonly<Record<TenderNumber, ReadNumber>>;
  readonly isFit: boolean;
  /** The paragraphs for a need of so many lumens. */
  readonly words: (asked: { readonly white: number; readonly colour: number }) => Outcome<Words>;
}

const STANDARD_MAX = 120;

/** Texts of the wording's fields → paragraphs, or what is wrong with which field. */
export function understandTender(texts: TenderTexts): UnderstoodTender {
  const fraction = readNumber(texts.fraction, { what: 'least part', unit: '%', min: 1, max: 100 });
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
  const isFit = !standard && Object.values(numbers).every(({ problem, question }) => !problem && !question);
  return {
    standard,
    numbers,
    isFit,
    words: ({ white, colour }) =>
      isFit
        ? chain(planOf(units.value, texts.aql), (plan) =>
            tender({
              white,
              colour,
              standard: texts.standard,
              fraction: fraction.value! / 100,
              rule: ruleOf(texts.rule),
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

function planOf(units: number | undefined, aql: string): Outcome<SamplingPlan | undefined> {
  return units === undefined ? good(undefined) : samplingPlan(units, Number(aql));
}

function ruleOf(text: string): DecisionRule {
  return DECISION_RULES.find((rule) => rule === text) ?? DECISION_RULES[0];
}

export const AQL_CHOICES = AQLS.map(String);

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
