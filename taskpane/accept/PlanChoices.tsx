import { INSPECTION_LEVELS } from '../../src/procurement/lot/letter';
import { LISTED_AQLS, SEVERITIES } from '../../src/procurement/lot/master';
import { switchingWords } from '../../src/procurement/lot/switching';
import { Choice } from '../components/Choice';
import { inspectionOf } from './form';

interface PlanTexts {
  readonly aql: string;
  readonly level: string;
  readonly severity: string;
}

interface PlanChoicesProps {
  /** Begins the ids of the fields, unique in the page. */
  readonly step: string;
  readonly texts: PlanTexts;
  readonly onPick: (id: keyof PlanTexts, value: string) => void;
}

const AQLS = LISTED_AQLS.map((aql) => [String(aql), String(aql)] as const);
const LEVELS = INSPECTION_LEVELS.map((level) => [level, level] as const);
const HOW = SEVERITIES.map((severity) => [severity, severity] as const);

/** AQL, level and severity, from which the plan of a sample follows. */
export function PlanChoices({ step, texts, onPick }: PlanChoicesProps) {
  return (
    <>
      <Choice
        id={`${step}-aql`}
        label="AQL, % not conforming"
        value={texts.aql}
        choices={AQLS}
        hint="Acceptance quality limit, ISO 2859-1: a lot with no more than this share of bad units is nearly always accepted. Below 0.25 every unit of a small lot is measured; above 10 an AQL counts faults, of which a unit may have several, and decides about no unit."
        onPick={(value) => onPick('aql', value)}
      />
      <Choice
        id={`${step}-level`}
        label="Inspection level"
        value={texts.level}
        choices={LEVELS}
        hint="II unless something else is agreed. I measures fewer units and III more, with the same AQL; S-1 to S-4 are for very small samples."
        onPick={(value) => onPick('level', value)}
      />
      <Choice
        id={`${step}-severity`}
        label="Severity of inspection"
        value={texts.severity}
        choices={HOW}
        hint={`A first lot is inspected normally. ${switchingWords(inspectionOf(texts).severity)}`}
        onPick={(value) => onPick('severity', value)}
      />
    </>
  );
}
