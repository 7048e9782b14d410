import { LUMENS } from '../../src/photometry/bounds';
import { ABSURD_LUX } from '../../src/photometry/reading';
import { BATCH_READINGS, type BatchReadings, hasColour, isCentre } from '../../src/procurement/batch/columns';
import {
  BATCH_AMBIENTS,
  BATCH_UNITS,
  type BatchAmbient,
  type BatchReference,
  type BatchSetup,
} from '../../src/sheets/batch/setup';
import type { RunSetup } from '../../src/sheets/runsetup';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import type { DecimalMark } from '../parse/number';
import type { Expectation } from '../parse/quantity';
import { type ReadNumber, readNumber } from '../parse/readnumber';
import { type UnitList, unitList } from './serials';

/** Number fields of a new batch. */
export const BATCH_NUMBERS = {
  lines: {
    label: 'Lines of the table',
    hint: 'Empty: as many as units, at least 20.',
    expect: { what: 'lines of the table', unit: '', min: BATCH_UNITS.min, max: BATCH_UNITS.max },
  },
  whiteStated: {
    label: 'U of white if stated, %',
    hint: 'Its uncertainty. Empty: by the budget on the sheet.',
    expect: { what: 'stated U of white', unit: '%', moreThan: 0, max: 100 },
  },
  colourStated: {
    label: 'U of colour if stated, %',
    hint: 'Its uncertainty. Empty: by the budget on the sheet.',
    expect: { what: 'stated U of colour', unit: '%', moreThan: 0, max: 100 },
  },
  whiteReference: {
    label: 'Its white at the centre, lx',
    hint: 'Net of ambient light.',
    expect: { what: 'white at the centre', unit: 'lx', moreThan: 0, max: ABSURD_LUX },
  },
  colourReference: {
    label: 'Its colour at the centre, lx',
    hint: 'Red + green + blue, net.',
    expect: { what: 'colour at the centre', unit: 'lx', moreThan: 0, max: ABSURD_LUX },
  },
  whiteOutput: {
    label: 'Its white light output, lm',
    hint: 'For estimates in lumens. Empty: none.',
    expect: { what: 'white light output', unit: 'lm', moreThan: 0, max: LUMENS.max },
  },
  colourOutput: {
    label: 'Its colour light output, lm',
    hint: 'For estimates in lumens. Empty: none.',
    expect: { what: 'colour light output', unit: 'lm', moreThan: 0, max: LUMENS.max },
  },
} as const satisfies Record<string, { label: string; hint: string; expect: Expectation }>;
export type BatchNumber = keyof typeof BATCH_NUMBERS;
const NUMBERS = Object.keys(BATCH_NUMBERS) as BatchNumber[];

export interface BatchTexts extends Readonly<Record<BatchNumber, string>> {
  readonly title: string;
  readonly units: string;
  readonly readings: string;
  readonly ambient: string;
  readonly reference: string;
}
export type BatchMarks = Readonly<Partial<Record<BatchNumber, DecimalMark>>>;

export const START: BatchTexts = {
  title: '',
  units: '',
  readings: BATCH_READINGS[0],
  ambient: BATCH_AMBIENTS[0]!,
  reference: '',
  ...(Object.fromEntries(NUMBERS.map((id) => [id, ''])) as Record<BatchNumber, string>),
};

export const READINGS_WORDS: Readonly<Record<BatchReadings, string>> = {
  'nine points white': 'Nine points, white only (9 a unit)',
  'nine points in each colour': 'Nine points in white, red, green, blue (36 a unit)',
  'centre white': 'Centre only, white (1 a unit)',
  'centre in each colour': 'Centre only, white, red, green, blue (4 a unit)',
};
export const AMBIENT_WORDS: Readonly<Record<BatchAmbient, string>> = {
  once: 'Read once for all units',
  'by row': 'Read for each unit',
  none: 'Not measured',
};

/** Lines that a table has at least, so that units can come later. */
const LINES_LEAST = 20;

export interface UnderstoodBatch {
  readonly list: UnitList;
  readonly numbers: Readonly<Record<BatchNumber, ReadNumber>>;
  /** What stands in the way of building, in words. */
  readonly problems: readonly string[];
  readonly setup?: BatchSetup;
}

/** Number fields that count with what is read. */
export function numbersFor(readings: string): readonly BatchNumber[] {
  const kind = readings as BatchReadings;
  return NUMBERS.filter((id) => {
    if (id === 'lines' || id === 'whiteStated') return true;
    if (id === 'colourStated') return hasColour(kind);
    return isCentre(kind) && (id.startsWith('white') || hasColour(kind));
  });
}

/** Texts, and the run form's set-up for what all units share → the set-up of a batch. */
export function understandBatch(
  texts: BatchTexts,
  marks: BatchMarks,
  run: RunSetup | undefined,
): UnderstoodBatch {
  const readings = BATCH_READINGS.find((each) => each === texts.readings) ?? BATCH_READINGS[0];
  const list = unitList(texts.units);
  const used = numbersFor(readings);
  const numbers = Object.fromEntries(
    NUMBERS.map((id) => [id, readNumber(texts[id], BATCH_NUMBERS[id].expect, marks[id])]),
  ) as Record<BatchNumber, ReadNumber>;
  const value = (id: BatchNumber) => (used.includes(id) ? numbers[id].value : undefined);
  const lines = value('lines') ?? Math.max(LINES_LEAST, list.units.length);
  const problems = [
    ...(list.problems.length > 0 ? ['The list of units needs another look.'] : []),
    ...(used.some((id) => numbers[id].problem || numbers[id].question)
      ? ['A number needs another look.']
      : []),
    ...(Number.isInteger(lines) ? [] : ['The lines of the table are a whole number.']),
    ...(lines < list.units.length
      ? [`There are ${list.units.length} units, and ${lines} lines: leave that field empty or raise it.`]
      : []),
    ...(texts.title.trim().length > TEXT_MAX ? [`The batch’s name has at most ${TEXT_MAX} characters.`] : []),
    ...(isCentre(readings) && texts.reference.trim() === ''
      ? ['Name the reference unit: centre readings say something only beside a unit with a full run.']
      : []),
    ...(run ? [] : ['Projector, image, meter or a folded field needs another look.']),
  ];
  if (problems.length > 0 || !run) return { list, numbers, problems };
  const part = (id: BatchNumber) => {
    const found = value(id);
    return found === undefined ? undefined : found / 100;
  };
  return {
    list,
    numbers,
    problems,
    setup: {
      title: texts.title.trim(),
      projector: run.projector,
      mode: run.mode,
      measuredBy: run.measuredBy,
      meter: run.meter,
      image: run.image,
      gain: run.gain,
      rated: run.rated,
      standard: run.standard,
      readings,
      ambient: BATCH_AMBIENTS.find((each) => each === texts.ambient) ?? 'once',
      uncertainty: run.uncertainty,
      stated: known({ white: part('whiteStated'), colour: part('colourStated') }),
      reference: isCentre(readings)
        ? {
            unit: texts.reference.trim(),
            ...known({
              white: value('whiteReference'),
              colour: value('colourReference'),
              whiteOutput: value('whiteOutput'),
              colourOutput: value('colourOutput'),
            }),
          }
        : { unit: '' },
      units: list.units,
      lines,
    },
  };
}

function known<K extends string>(values: Readonly<Record<K, number | undefined>>) {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<
    Record<K, number>
  > &
    Partial<BatchReference>;
}
