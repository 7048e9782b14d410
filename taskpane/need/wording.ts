import { DECISION_RULES, type DecisionRule } from '../../src/metrology/words';
import { LEAST_PART } from '../../src/photometry/bounds';
import { bad, chain, good, type Outcome } from '../../src/photometry/outcome';
import type { ListedAql } from '../../src/procurement/lot/master';
import { type Inspection, type SamplingPlan, samplingPlan } from '../../src/procurement/lot/plan';
import { ASKED_STEP, roundUp, whole } from '../../src/procurement/wording/format';
import {
  DEFAULT_STANDARD,
  TENDER_PARTS,
  type TenderPart,
  tender,
} from '../../src/procurement/wording/tender';
import { usual } from '../../src/sheets/setup/fields';
import { aqlOf, inspectionOf, PLAN_FIELDS, type PlanField } from '../accept/planfields';
import type { FieldTable, Texts } from '../form/field';
import { readAll, unfitIn } from '../form/read';
import { perCent } from '../setup/ask';
import { typedAs } from '../setup/value';

/** Figures asked for are rounded up to this, lm, in the wording and in the offers step. */
export const STEP = ASKED_STEP;

export type TenderField = 'standard' | 'fraction' | 'rule' | 'units' | PlanField;
export type TenderTexts = Texts<TenderField>;

/** What the words for the tender are made from. The usual floor for a delivered unit is 80 % (common practice). */
export const TENDER: FieldTable<TenderField> = {
  standard: {
    kind: 'text',
    label: 'Measuring standard, with its year',
    max: 120,
    start: DEFAULT_STANDARD,
    needed: 'Name the measuring standard with its year.',
  },
  fraction: {
    kind: 'number',
    label: 'Least part of the rated value, %',
    hint: 'What a delivered unit must show. 80 is a convention, not a law.',
    start: typedAs('rated.minimumFraction', usual('rated.minimumFraction')),
    expect: { what: 'least part', unit: '%', min: perCent(LEAST_PART.min), max: perCent(LEAST_PART.max) },
    needed: 'A least part is needed.',
  },
  rule: {
    kind: 'choice',
    label: 'Decision rule',
    start: DECISION_RULES[0],
    choices: DECISION_RULES.map((rule) => [rule, rule]),
  },
  units: {
    kind: 'number',
    label: 'Units to be delivered',
    hint: 'Empty: every unit is measured.',
    expect: { what: 'number of units', unit: '', min: 2, max: 500_000, isWhole: true },
  },
  ...PLAN_FIELDS,
};

export type Words = Readonly<Record<TenderPart, string>>;

export interface UnderstoodTender {
  readonly rule: DecisionRule;
  readonly aql: ListedAql;
  readonly inspection: Required<Inspection>;
  readonly isFit: boolean;
  /** The paragraphs for a need of so many lumens. */
  readonly words: (asked: { readonly white: number; readonly colour: number }) => Outcome<Words>;
}

/** Texts of the wording's fields → paragraphs. */
export function understandTender(texts: TenderTexts, reads = readAll(TENDER, texts)): UnderstoodTender {
  const rule = DECISION_RULES.find((each) => each === texts.rule) ?? DECISION_RULES[0];
  const aql = aqlOf(texts.aql);
  const inspection = inspectionOf(texts);
  const isFit = unfitIn(reads).length === 0;
  return {
    rule,
    aql,
    inspection,
    isFit,
    words: ({ white, colour }) =>
      isFit
        ? chain(planOf(reads.units.value, aql, inspection), (plan) =>
            tender({
              white,
              colour,
              standard: texts.standard,
              fraction: reads.fraction.value! / 100,
              rule,
              ...(plan ? { plan } : {}),
              step: STEP,
            }),
          )
        : bad(),
  };
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
