import { bad, chain, good, invalid, type Outcome } from '../../photometry/outcome';
import { type CodeLetter, codeLetter, type InspectionLevel, USUAL_LEVEL } from './letter';
import { AQLS, type Aql, masterPlan, type Severity } from './master';

/** A single sampling plan for one lot. */
export interface SamplingPlan {
  readonly lotSize: number;
  readonly aql: Aql;
  readonly level: InspectionLevel;
  readonly severity: Severity;
  /** Letter of the lot size, and letter of the plan used after arrows were followed. */
  readonly letter: CodeLetter;
  readonly planLetter: CodeLetter;
  /** Sample size of the table, whatever the lot holds. */
  readonly tableSize: number;
  /** Units to inspect: the table's, or all where the lot holds no more. */
  readonly sampleSize: number;
  readonly inspectsAll: boolean;
  /** The lot is accepted with at most so many nonconforming units in the sample … */
  readonly accept: number;
  /** … and rejected with so many. Between the two, reduced inspection accepts and the next lot is inspected normally. */
  readonly reject: number;
}

/** What of the standard a plan is taken from, beside the size of the lot and the AQL. */
export interface Inspection {
  readonly level?: InspectionLevel;
  readonly severity?: Severity;
}

/** `normal inspection, general level II` */
export function inspectionWords({ level, severity }: Required<Inspection>): string {
  return `${severity} inspection, ${level.startsWith('S') ? 'special' : 'general'} level ${level}`;
}

/** Where a plan is from, in words. */
export function planSource(inspection: Required<Inspection>): string {
  return `ISO 2859-1, single sampling, ${inspectionWords(inspection)} (values as in MIL-STD-105E)`;
}

export const PLAN_SOURCE = planSource({ level: USUAL_LEVEL, severity: 'normal' });
/** Where level and severity are a choice. */
export const ANY_PLAN_SOURCE =
  'ISO 2859-1 (from memory), values as MIL-STD-105E has them in tables I and II-A to II-C';

/** An AQL that plans are kept for. */
function parseAql(percent: number): Outcome<Aql> {
  const found = AQLS.find((aql) => aql === percent);
  if (found !== undefined) return good(found);
  return bad(
    invalid(
      'choice',
      'AQL',
      `The AQL must be one of ${AQLS.join(', ')} (percent nonconforming); it is ${percent}.`,
    ),
  );
}

/** The plan for a lot of at least two units. Where the table's sample is the lot or more, all are inspected. */
export function samplingPlan(
  lotSize: number,
  percent: number,
  { level = USUAL_LEVEL, severity = 'normal' }: Inspection = {},
): Outcome<SamplingPlan> {
  return chain(parseAql(percent), (aql) =>
    chain(codeLetter(lotSize, level), (letter) => {
      const { letter: planLetter, sampleSize: tableSize, ...numbers } = masterPlan(letter, aql, severity);
      return good({
        lotSize,
        aql,
        level,
        severity,
        letter,
        planLetter,
        tableSize,
        sampleSize: Math.min(tableSize, lotSize),
        inspectsAll: tableSize >= lotSize,
        ...numbers,
      });
    }),
  );
}
