import { LUMENS } from '../../src/photometry/bounds';
import { bad, type Outcome } from '../../src/photometry/outcome';
import { listProblems } from '../../src/procurement/lot/draw';
import { INSPECTION_LEVELS, USUAL_LEVEL } from '../../src/procurement/lot/letter';
import { SEVERITIES } from '../../src/procurement/lot/master';
import type { Inspection } from '../../src/procurement/lot/plan';
import { serialsOf } from '../../src/procurement/lot/serials';
import { COUNTINGS, type Counting } from '../../src/procurement/lot/verdict';
import { type DrawnLot, drawLot, LARGEST_LISTED_LOT } from '../../src/sheets/acceptance/setup';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import { type ReadNumber, readNumber } from '../parse/readnumber';

/** What stands in the fields of the acceptance step. */
export interface LotTexts {
  readonly lot: string;
  /** One serial a line. */
  readonly serials: string;
  readonly aql: string;
  readonly level: string;
  readonly severity: string;
  readonly seed: string;
  readonly drawnBy: string;
  readonly leastWhite: string;
  readonly leastColour: string;
  readonly counting: string;
}

export const START: LotTexts = {
  lot: '',
  serials: '',
  aql: '2.5',
  level: USUAL_LEVEL,
  severity: 'normal',
  seed: '',
  drawnBy: '',
  leastWhite: '',
  leastColour: '',
  counting: 'value',
};

export type LeastLight = 'leastWhite' | 'leastColour';

type LotProblems = Readonly<Partial<Record<keyof LotTexts, string>>>;

export interface LotUnderstood {
  readonly count: number;
  readonly problems: LotProblems;
  readonly numbers: Readonly<Record<LeastLight, ReadNumber>>;
  /** The drawn lot once every field is fit. */
  readonly drawn: DrawnLot | undefined;
  /** What the pure room objects to, in words. */
  readonly objection: string;
}

/** How decisions count, by the word chosen. */
export function countingOf(text: string): Counting {
  return COUNTINGS.find((one) => one === text) ?? 'value';
}

/** Level and severity, by the words chosen. */
export function inspectionOf(texts: {
  readonly level: string;
  readonly severity: string;
}): Required<Inspection> {
  return {
    level: INSPECTION_LEVELS.find((one) => one === texts.level) ?? USUAL_LEVEL,
    severity: SEVERITIES.find((one) => one === texts.severity) ?? 'normal',
  };
}

/** Texts → the drawn lot, or what is wrong with which field. */
export function understandLot(texts: LotTexts, today: string): LotUnderstood {
  const problems: Partial<Record<keyof LotTexts, string>> = {};
  const least = (id: LeastLight, what: string) => {
    const found = readNumber(texts[id], { what, unit: 'lm', moreThan: 0, max: LUMENS.max });
    const problem = found.problem ?? found.question?.message;
    if (problem) problems[id] = problem;
    return found;
  };
  const numbers = {
    leastWhite: least('leastWhite', 'least white'),
    leastColour: least('leastColour', 'least colour'),
  };
  const [leastWhite, leastColour] = [numbers.leastWhite.value, numbers.leastColour.value];
  const serials = serialsOf(texts.serials);
  if (serials.length < 2) problems.serials = 'A lot has at least two units; list every serial, one a line.';
  else if (serials.length > LARGEST_LISTED_LOT)
    problems.serials = `One sheet lists ${LARGEST_LISTED_LOT} units; there are ${serials.length}.`;
  else if (serials.some((serial) => serial.length > 80)) problems.serials = 'At most 80 characters a serial.';
  const repeated = listProblems(serials).map(({ message }) => message);
  if (repeated.length > 0) problems.serials ??= repeated.join(' ');
  if (texts.seed.trim() === '') problems.seed = 'A seed is needed: a number or text fixed in public.';
  if (leastWhite === undefined && leastColour === undefined && !problems.leastWhite && !problems.leastColour)
    problems.leastWhite = 'At least one light output must be judged.';
  for (const id of ['lot', 'seed', 'drawnBy'] as const)
    if (texts[id].length > TEXT_MAX) problems[id] = `At most ${TEXT_MAX} characters.`;
  const isFit = Object.keys(problems).length === 0;
  const outcome: Outcome<DrawnLot> = isFit
    ? drawLot({
        lot: texts.lot.trim(),
        serials,
        aql: Number(texts.aql),
        ...inspectionOf(texts),
        seed: texts.seed.trim(),
        drawnBy: texts.drawnBy.trim(),
        drawnOn: today,
        ...(leastWhite === undefined ? {} : { leastWhite }),
        ...(leastColour === undefined ? {} : { leastColour }),
        counting: countingOf(texts.counting),
      })
    : bad();
  return {
    count: serials.length,
    problems,
    numbers,
    drawn: outcome.ok ? outcome.value : undefined,
    objection: outcome.ok ? '' : outcome.problems.map(({ message }) => message).join(' '),
  };
}
