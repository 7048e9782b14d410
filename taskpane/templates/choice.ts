import { BATCH_READINGS } from '../../src/procurement/batch/columns';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import { MOST_RUNS } from '../../src/template/schema';
import type { TemplateFile } from '../../src/template/template';
import { readNumber } from '../parse/readnumber';

/** Which sheets a template is to build, as chosen in the pane. */
export interface Choice {
  readonly need: boolean;
  readonly offers: boolean;
  /** Empty lines of the offers sheet, as typed. */
  readonly lines: string;
  readonly runs: 'none' | 'rooms' | 'sample' | 'list';
  /** Units of a list, one a line. */
  readonly units: string;
  readonly rated: boolean;
  readonly comparison: boolean;
  readonly spot: boolean;
  readonly batch: boolean;
  readonly readings: string;
  readonly batchLines: string;
  readonly acceptance: boolean;
  readonly certificates: boolean;
  readonly ageing: 'none' | 'one' | 'each unit';
  readonly overview: boolean;
}

export const START_CHOICE: Choice = {
  need: true,
  offers: true,
  lines: '10',
  runs: 'rooms',
  units: '',
  rated: true,
  comparison: false,
  spot: false,
  batch: false,
  readings: BATCH_READINGS[0],
  batchLines: '20',
  acceptance: false,
  certificates: false,
  ageing: 'none',
  overview: true,
};

export type ChoiceProblems = Readonly<Partial<Record<keyof Choice, string>>>;

/** What is chosen and does not apply: it is neither asked nor taken. */
export function applies(choice: Choice, id: keyof Choice): boolean {
  const { offers, runs, batch } = choice;
  switch (id) {
    case 'lines':
      return offers;
    case 'units':
      return runs === 'list';
    case 'rated':
      return offers && (runs !== 'none' || batch);
    case 'comparison':
    case 'spot':
    case 'certificates':
      return runs !== 'none';
    case 'readings':
    case 'batchLines':
      return batch;
    case 'acceptance':
      return offers || choice.need;
    default:
      return true;
  }
}

export function problemsOf(choice: Choice): ChoiceProblems {
  const problems: Partial<Record<keyof Choice, string>> = {};
  const whole = (id: 'lines' | 'batchLines', max: number) => {
    if (!applies(choice, id)) return;
    const { value, problem, question } = readNumber(choice[id], {
      what: 'number of lines',
      unit: '',
      min: 1,
      max,
    });
    if (value === undefined) problems[id] = problem ?? question?.message ?? 'A number of lines is needed.';
    else if (!Number.isInteger(value)) problems[id] = 'Number of lines: it must be a whole number.';
  };
  whole('lines', 200);
  whole('batchLines', 5000);
  if (choice.runs === 'list') {
    const units = unitsIn(choice.units);
    if (units.length === 0) problems.units = 'List at least one unit, one a line.';
    else if (units.length > MOST_RUNS)
      problems.units = `A template builds ${MOST_RUNS} runs; there are ${units.length} units. More belong into a batch.`;
    else if (units.some((unit) => unit.length > TEXT_MAX))
      problems.units = `At most ${TEXT_MAX} characters a unit.`;
  }
  return problems;
}

function unitsIn(text: string): string[] {
  return text
    .split(/\r\n?|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

/** The choice as the template has it; called with no problems. */
export function sheetsOf(choice: Choice): TemplateFile['sheets'] {
  const is = (id: keyof Choice) => applies(choice, id) && choice[id] === true;
  const count = (text: string) => readNumber(text, { what: 'number', unit: '', min: 1, max: 5000 }).value!;
  const rated = is('rated') ? 'chosen offer' : 'typed later';
  return {
    ...(choice.need ? { need: {} } : {}),
    ...(choice.offers ? { offers: { lines: count(choice.lines) } } : {}),
    ...(choice.runs === 'none'
      ? {}
      : {
          runs:
            choice.runs === 'list'
              ? { for: 'list', rated, units: unitsIn(choice.units).map((projector) => ({ projector })) }
              : { for: choice.runs, rated },
        }),
    comparison: is('comparison'),
    ...(is('spot') ? { spot: {} } : {}),
    ...(choice.batch
      ? {
          batch: {
            readings: choice.readings as (typeof BATCH_READINGS)[number],
            lines: count(choice.batchLines),
            rated,
          },
        }
      : {}),
    ...(is('acceptance') ? { acceptance: { least: choice.offers ? 'chosen offer' : 'need' } } : {}),
    certificates: is('certificates'),
    ageing: choice.ageing === 'each unit' && choice.runs === 'none' ? 'one' : choice.ageing,
    overview: choice.overview,
  };
}
