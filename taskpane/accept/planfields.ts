import { INSPECTION_LEVELS, USUAL_LEVEL } from '../../src/procurement/lot/letter';
import { LISTED_AQLS, type ListedAql, SEVERITIES } from '../../src/procurement/lot/master';
import type { Inspection } from '../../src/procurement/lot/plan';
import { switchingWords } from '../../src/procurement/lot/switching';
import type { FieldTable, Texts } from '../form/field';

export type PlanField = 'aql' | 'level' | 'severity';

/** Where a contract names none (common practice). */
const USUAL_AQL: ListedAql = 2.5;
const same = (values: readonly (string | number)[]) =>
  values.map((value) => [String(value), String(value)] as const);

/** AQL, level and severity, from which the plan of a sample follows. */
export const PLAN_FIELDS: FieldTable<PlanField> = {
  aql: {
    kind: 'choice',
    label: 'AQL, % not conforming',
    start: String(USUAL_AQL),
    choices: same(LISTED_AQLS),
    hint: 'Acceptance quality limit, ISO 2859-1: a lot with no more than this share of bad units is nearly always accepted. Below 0.25 every unit of a small lot is measured; above 10 an AQL counts faults, of which a unit may have several, and decides about no unit.',
  },
  level: {
    kind: 'choice',
    label: 'Inspection level',
    start: USUAL_LEVEL,
    choices: same(INSPECTION_LEVELS),
    hint: 'II unless something else is agreed. I measures fewer units and III more, with the same AQL; S-1 to S-4 are for very small samples.',
  },
  severity: {
    kind: 'choice',
    label: 'Severity of inspection',
    start: 'normal',
    choices: same(SEVERITIES),
    hint: (texts) => `A first lot is inspected normally. ${switchingWords(inspectionOf(texts).severity)}`,
  },
};

export function aqlOf(text: string): ListedAql {
  return LISTED_AQLS.find((one) => String(one) === text) ?? USUAL_AQL;
}

/** Level and severity, by the words chosen. */
export function inspectionOf({
  level,
  severity,
}: Pick<Texts<PlanField>, 'level' | 'severity'>): Required<Inspection> {
  return {
    level: INSPECTION_LEVELS.find((one) => one === level) ?? USUAL_LEVEL,
    severity: SEVERITIES.find((one) => one === severity) ?? 'normal',
  };
}

/** "level II, normal": how a sample is drawn, beside the closed fields. */
export function inspectionWords(texts: Texts<PlanField>): string {
  const { level, severity } = inspectionOf(texts);
  const isUsual = level === USUAL_LEVEL && severity === 'normal';
  return `level ${level}, ${severity}${isUsual ? ', as usual' : ''}`;
}
