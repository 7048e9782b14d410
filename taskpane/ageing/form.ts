import { LUMENS } from '../../src/photometry/bounds';
import type { AgeingSetup, Measurement } from '../../src/sheets/ageing/setup';
import { FIRST_DATE, LEVEL, TEXT_MAX } from '../../src/sheets/setup/fields';
import type { Expectation } from '../parse/quantity';
import { type ReadNumber, readNumber } from '../parse/readnumber';
import { perCent } from '../setup/ask';

/** What stands in the fields of the ageing step. */
export interface AgeingTexts {
  readonly projector: string;
  readonly serial: string;
  readonly mode: string;
  readonly needed: string;
  readonly stated: string;
  readonly hoursPerYear: string;
  /** Per cent. */
  readonly level: string;
}

/** One measurement as typed. */
export interface LineTexts {
  readonly hours: string;
  readonly output: string;
  readonly expanded: string;
  readonly date: string;
  readonly remark: string;
}

export const EMPTY_LINE: LineTexts = { hours: '', output: '', expanded: '', date: '', remark: '' };
export type LineField = keyof LineTexts;
export type AgeingNumber = 'needed' | 'stated' | 'hoursPerYear' | 'level';
export type LineNumber = 'hours' | 'output' | 'expanded';
type Problems<K extends string> = Readonly<Partial<Record<K, string>>>;

/** The fields understood. Without problems `setup` can be built. */
export interface Understood {
  readonly setup: AgeingSetup;
  readonly problems: Problems<keyof AgeingTexts>;
  readonly lines: readonly Problems<LineField>[];
  readonly numbers: Readonly<Record<AgeingNumber, ReadNumber>>;
  readonly lineNumbers: readonly Readonly<Record<LineNumber, ReadNumber>>[];
  readonly isFit: boolean;
}

const LIGHT = { unit: 'lm', moreThan: 0, max: LUMENS.max };

const EXPECTED: Readonly<Record<AgeingNumber, Expectation>> = {
  needed: { what: 'light the room needs', ...LIGHT },
  stated: { what: 'initial light output', ...LIGHT },
  hoursPerYear: { what: 'hours of use a year', unit: '', min: 1, max: 8784 },
  level: { what: 'level of confidence', unit: '%', min: perCent(LEVEL.min), max: perCent(LEVEL.max) },
};
const LINE_EXPECTED: Readonly<Record<LineNumber, Expectation>> = {
  hours: { what: 'hours', unit: '', min: 0, max: 1_000_000 },
  output: { what: 'light output', ...LIGHT },
  expanded: { what: 'U', unit: 'lm', min: 0, max: LUMENS.max },
};

/** Reads some fields; what is wrong with one is noted under its name. */
function readAll<K extends string>(
  expected: Readonly<Record<K, Expectation>>,
  texts: Readonly<Record<K, string>>,
  problems: Partial<Record<K, string>>,
): Record<K, ReadNumber> {
  const ids = Object.keys(expected) as K[];
  const numbers = Object.fromEntries(ids.map((id) => [id, readNumber(texts[id], expected[id])])) as Record<
    K,
    ReadNumber
  >;
  for (const id of ids) {
    const problem = numbers[id].problem ?? numbers[id].question?.message;
    if (problem) problems[id] = problem;
  }
  return numbers;
}

/** Texts → set-up and what is wrong. A line with nothing in it does not count. */
export function understand(texts: AgeingTexts, lines: readonly LineTexts[]): Understood {
  const problems: Partial<Record<keyof AgeingTexts, string>> = {};
  const numbers = readAll<AgeingNumber>(EXPECTED, texts, problems);
  const [needed, stated, hoursPerYear, level] = [
    numbers.needed.value,
    numbers.stated.value,
    numbers.hoursPerYear.value,
    numbers.level.value,
  ];
  if (!problems.hoursPerYear && hoursPerYear === undefined)
    problems.hoursPerYear = 'Hours of use a year are needed.';
  if (!problems.level && level === undefined) problems.level = 'A level of confidence is needed.';
  for (const id of ['projector', 'serial', 'mode'] as const)
    if (texts[id].length > TEXT_MAX) problems[id] = `At most ${TEXT_MAX} characters.`;
  const typed = lines.map(understandLine);
  return {
    setup: {
      projector: texts.projector.trim(),
      serial: texts.serial.trim(),
      mode: texts.mode.trim(),
      ...(needed === undefined ? {} : { needed }),
      ...(stated === undefined ? {} : { stated }),
      hoursPerYear: hoursPerYear ?? Number.NaN,
      level: (level ?? Number.NaN) / 100,
      points: typed.flatMap(({ point }) => (point ? [point] : [])),
    },
    problems,
    lines: typed.map((line) => line.problems),
    numbers,
    lineNumbers: typed.map((line) => line.numbers),
    isFit:
      Object.keys(problems).length === 0 && typed.every((line) => Object.keys(line.problems).length === 0),
  };
}

export function isBlankLine(line: LineTexts): boolean {
  return Object.values(line).every((text) => text.trim() === '');
}

interface UnderstoodLine {
  readonly problems: Problems<LineField>;
  readonly numbers: Readonly<Record<LineNumber, ReadNumber>>;
  readonly point?: Measurement;
}

function understandLine(line: LineTexts): UnderstoodLine {
  const problems: Partial<Record<LineField, string>> = {};
  const numbers = readAll<LineNumber>(LINE_EXPECTED, line, problems);
  if (isBlankLine(line)) return { problems, numbers };
  const [hours, output, expanded] = [numbers.hours.value, numbers.output.value, numbers.expanded.value];
  if (hours === undefined && !problems.hours) problems.hours = 'The hours of the light source are needed.';
  if (output === undefined && !problems.output) problems.output = 'The light output is needed.';
  if (line.remark.length > TEXT_MAX) problems.remark = `At most ${TEXT_MAX} characters.`;
  if (line.date !== '' && !isDay(line.date)) problems.date = 'A day of the calendar from 2000 on.';
  if (hours === undefined || output === undefined || Object.keys(problems).length > 0)
    return { problems, numbers };
  return {
    problems,
    numbers,
    point: {
      hours,
      output,
      ...(expanded === undefined ? {} : { expanded }),
      ...(line.date === '' ? {} : { date: line.date }),
      ...(line.remark.trim() === '' ? {} : { remark: line.remark.trim() }),
    },
  };
}

function isDay(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && text >= FIRST_DATE && !Number.isNaN(Date.parse(text));
}
