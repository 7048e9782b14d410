import { BATCH_READINGS } from '../../src/procurement/batch/columns';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import { MOST_RUNS } from '../../src/template/schema';
import type { TemplateFile } from '../../src/template/template';
import { type FieldSpec, type FieldTable, isTicked, type Reads, type Texts, TICKED } from '../form/field';

export type TemplateField =
  | 'title'
  | 'note'
  | 'need'
  | 'offers'
  | 'lines'
  | 'runs'
  | 'units'
  | 'comparison'
  | 'certificates'
  | 'spot'
  | 'batch'
  | 'readings'
  | 'batchLines'
  | 'rated'
  | 'acceptance'
  | 'ageing'
  | 'overview';
export type TemplateTexts = Texts<TemplateField>;

const hasOffers = ({ offers }: TemplateTexts) => isTicked(offers);
const hasBatch = ({ batch }: TemplateTexts) => isTicked(batch);
const hasRuns = ({ runs }: TemplateTexts) => runs !== 'none';

const tick = (label: string, more: Partial<FieldSpec<TemplateField>> = {}) =>
  ({ kind: 'tick', label, ...more }) as FieldSpec<TemplateField>;
const lines = (label: string, start: number, max: number): FieldSpec<TemplateField> => ({
  kind: 'number',
  label,
  start: String(start),
  expect: { what: 'number of lines', unit: '', min: 1, max, isWhole: true },
  needed: 'A number of lines is needed.',
});

/** A template that is to be saved: what it is called, and which sheets it builds. What does not apply is not taken. */
export const TEMPLATE: FieldTable<TemplateField> = {
  title: { kind: 'text', label: 'Title', needed: 'The template needs a title.' },
  note: { kind: 'lines', rows: 2, isProse: true, max: 500, label: 'Note' },
  need: tick('Need, one line a room', { start: TICKED }),
  offers: tick('Offers, asked figures linked to the need', { start: TICKED }),
  lines: { ...lines('Empty lines for offers', 10, 200), applies: hasOffers },
  runs: {
    kind: 'choice',
    label: 'Run sheets',
    start: 'rooms',
    choices: [
      ['none', 'none'],
      ['rooms', 'one for each room'],
      ['sample', 'one for each unit drawn from the lot'],
      ['list', 'one for each unit of a list'],
    ],
  },
  units: {
    kind: 'lines',
    rows: 3,
    label: 'Units, one a line',
    needed: 'List at least one unit, one a line.',
    applies: ({ runs }) => runs === 'list',
    check: (text) => {
      const units = unitsIn(text);
      if (units.length > MOST_RUNS)
        return {
          problem: `A template builds ${MOST_RUNS} runs; there are ${units.length} units. More belong into a batch.`,
        };
      return units.some((unit) => unit.length > TEXT_MAX)
        ? { problem: `At most ${TEXT_MAX} characters a unit.` }
        : undefined;
    },
  },
  comparison: tick('Comparison of the runs', { applies: hasRuns }),
  certificates: tick('A certificate of each run', { applies: hasRuns }),
  spot: tick('Spot check of their units', { applies: hasRuns }),
  batch: tick('Batch, one line a unit'),
  readings: {
    kind: 'choice',
    label: 'What is read of each unit',
    start: BATCH_READINGS[0],
    choices: BATCH_READINGS.map((each) => [each, each]),
    applies: hasBatch,
  },
  batchLines: { ...lines('Lines of the batch', 20, 5000), applies: hasBatch },
  rated: tick('Rated figures linked to the offer chosen on the offers sheet', {
    start: TICKED,
    applies: (texts) => hasOffers(texts) && (hasRuns(texts) || hasBatch(texts)),
  }),
  acceptance: tick('Acceptance of the lot, limits linked to the chosen offer, without offers to the need', {
    applies: (texts) => hasOffers(texts) || isTicked(texts.need),
  }),
  ageing: {
    kind: 'choice',
    label: 'Ageing sheets',
    start: 'none',
    choices: (texts) => [
      ['none', 'none'],
      ['one', 'one'],
      ...(hasRuns(texts) ? ([['each unit', 'one for each run']] as const) : []),
    ],
  },
  overview: tick('Overview of the workbook', { start: TICKED }),
};

function unitsIn(text: string): string[] {
  return text
    .split(/\r\n?|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

/** The sheets as the template has them; called with every field fit. */
export function sheetsOf(texts: TemplateTexts, reads: Reads<TemplateField>): TemplateFile['sheets'] {
  const is = (id: TemplateField) => isTicked(texts[id]) && TEMPLATE[id].applies?.(texts) !== false;
  const rated = is('rated') ? 'chosen offer' : 'typed later';
  return {
    ...(is('need') ? { need: {} } : {}),
    ...(is('offers') ? { offers: { lines: reads.lines.value! } } : {}),
    ...runsOf(texts, rated),
    comparison: is('comparison'),
    ...(is('spot') ? { spot: {} } : {}),
    ...(is('batch')
      ? {
          batch: {
            readings: texts.readings as (typeof BATCH_READINGS)[number],
            lines: reads.batchLines.value!,
            rated,
          },
        }
      : {}),
    ...(is('acceptance') ? { acceptance: { least: is('offers') ? 'chosen offer' : 'need' } } : {}),
    certificates: is('certificates'),
    ageing: ageingOf(texts),
    overview: is('overview'),
  };
}

function runsOf(
  { runs, units }: TemplateTexts,
  rated: 'chosen offer' | 'typed later',
): Pick<TemplateFile['sheets'], 'runs'> {
  switch (runs) {
    case 'rooms':
    case 'sample':
      return { runs: { for: runs, rated } };
    case 'list':
      return { runs: { for: 'list', rated, units: unitsIn(units).map((projector) => ({ projector })) } };
    default:
      return {};
  }
}

function ageingOf(texts: TemplateTexts): TemplateFile['sheets']['ageing'] {
  if (texts.ageing === 'none') return 'none';
  return texts.ageing === 'each unit' && hasRuns(texts) ? 'each unit' : 'one';
}
