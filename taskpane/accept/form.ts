import { LUMENS } from '../../src/photometry/bounds';
import type { Outcome } from '../../src/photometry/outcome';
import { listProblems } from '../../src/procurement/lot/draw';
import { SERIAL_MAX, serialsOf } from '../../src/procurement/lot/serials';
import { COUNTINGS, type Counting } from '../../src/procurement/lot/verdict';
import { type DrawnLot, drawLot, LARGEST_LISTED_LOT } from '../../src/sheets/acceptance/setup';
import type { FieldTable, Texts } from '../form/field';
import { numbersIn, readAll, unfitIn } from '../form/read';
import type { Expectation } from '../parse/quantity';
import { inspectionOf, PLAN_FIELDS, type PlanField } from './planfields';

export type LotField =
  | 'lot'
  | 'serials'
  | PlanField
  | 'seed'
  | 'drawnBy'
  | 'leastWhite'
  | 'leastColour'
  | 'counting';
export type LotTexts = Texts<LotField>;

const light = (what: string): Expectation => ({ what, unit: 'lm', moreThan: 0, max: LUMENS.max });
const COUNTING_WORDS: Readonly<Record<Counting, readonly [words: string, meaning: string]>> = {
  value: ['By the measured value', 'A pass and a conditional pass conform.'],
  strict: ['Strictly', 'Only a pass conforms.'],
  lenient: ['Leniently', 'Everything but a fail conforms.'],
};

/** A lot: its list, how a sample is drawn from it, and what a unit must reach. */
export const LOT: FieldTable<LotField> = {
  lot: { kind: 'text', label: 'Lot', hint: 'As the delivery note calls it.' },
  serials: {
    kind: 'lines',
    rows: 6,
    label: 'Serials of every unit, one a line',
    needed: 'A lot has at least two units; list every serial, one a line.',
    hint: ({ serials }) => `${serialsOf(serials).length} listed.`,
    check: (text) => listProblem(serialsOf(text)),
  },
  ...PLAN_FIELDS,
  seed: {
    kind: 'text',
    label: 'Seed',
    needed: 'A seed is needed: a number or text fixed in public.',
    hint: 'Fixed in public after the list was closed, say by dice: the same list and seed give the same sample to everybody.',
  },
  drawnBy: { kind: 'text', label: 'Drawn by', hint: 'And before whom.' },
  leastWhite: {
    kind: 'number',
    label: 'Least white, lm',
    hint: 'Empty: white is not judged.',
    expect: light('least white'),
    check: (text, { leastColour }) =>
      `${text}${leastColour}`.trim() === ''
        ? { problem: 'At least one light output must be judged.' }
        : undefined,
  },
  leastColour: {
    kind: 'number',
    label: 'Least colour, lm',
    hint: 'Empty: colour is not judged.',
    expect: light('least colour'),
  },
  counting: {
    kind: 'choice',
    label: 'How decisions count',
    start: 'value',
    choices: COUNTINGS.map((each) => [each, COUNTING_WORDS[each][0]]),
    hint: ({ counting }) => COUNTING_WORDS[countingOf(counting)][1],
  },
};

function listProblem(serials: readonly string[]) {
  if (serials.length < 2) return { problem: 'A lot has at least two units; list every serial, one a line.' };
  if (serials.length > LARGEST_LISTED_LOT)
    return { problem: `One sheet lists ${LARGEST_LISTED_LOT} units; there are ${serials.length}.` };
  if (serials.some((serial) => serial.length > SERIAL_MAX))
    return { problem: `At most ${SERIAL_MAX} characters a serial.` };
  const repeated = listProblems(serials).map(({ message }) => message);
  return repeated.length > 0 ? { problem: repeated.join(' ') } : undefined;
}

/** How decisions count, by the word chosen. */
export function countingOf(text: string): Counting {
  return COUNTINGS.find((one) => one === text) ?? 'value';
}

/** Texts → the drawn lot, or what the pure room objects to; undefined while a field wants another look. */
export function understandLot(
  texts: LotTexts,
  today: string,
  reads = readAll(LOT, texts),
): Outcome<DrawnLot> | undefined {
  if (unfitIn(reads).length > 0) return undefined;
  return drawLot({
    lot: texts.lot.trim(),
    serials: serialsOf(texts.serials),
    aql: Number(texts.aql),
    ...inspectionOf(texts),
    seed: texts.seed.trim(),
    drawnBy: texts.drawnBy.trim(),
    drawnOn: today,
    ...numbersIn(reads, ['leastWhite', 'leastColour']),
    counting: countingOf(texts.counting),
  });
}
