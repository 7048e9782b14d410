import type { AgeingSetup, Measurement } from '../../src/sheets/ageing/setup';
import { type Expectation, quantity } from '../parse/quantity';

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
export type Problems<K extends string> = Readonly<Partial<Record<K, string>>>;

/** The fields understood. Without problems `setup` can be built. */
export interface Understood {
  readonly setup: AgeingSetup;
  readonly problems: Problems<keyof AgeingTexts>;
  readonly lines: readonly Problems<LineField>[];
  readonly isFit: boolean;
}

const LUMENS = { unit: 'lm', moreThan: 0, max: 1_000_000 };

/** A number, nothing, or why it is neither. */
function read(text: string, expected: Expectation): { readonly value?: number; readonly problem?: string } {
  const found = quantity(text, expected);
  if (found.state === 'blank') return {};
  return found.state === 'value' ? { value: found.value } : { problem: found.message };
}

/** Texts → set-up and what is wrong. A line with nothing in it does not count. */
export function understand(texts: AgeingTexts, lines: readonly LineTexts[]): Understood {
  const problems: Partial<Record<keyof AgeingTexts, string>> = {};
  const number = (id: keyof AgeingTexts, expected: Expectation) => {
    const { value, problem } = read(texts[id], expected);
    if (problem) problems[id] = problem;
    return value;
  };
  const needed = number('needed', { what: 'light the room needs', ...LUMENS });
  const stated = number('stated', { what: 'initial light output', ...LUMENS });
  const hoursPerYear = number('hoursPerYear', { what: 'hours of use a year', unit: '', min: 1, max: 8784 });
  const level = number('level', { what: 'level of confidence', unit: '%', min: 50, max: 99.99 });
  if (!problems.hoursPerYear && hoursPerYear === undefined)
    problems.hoursPerYear = 'Hours of use a year are needed.';
  if (!problems.level && level === undefined) problems.level = 'A level of confidence is needed.';
  for (const id of ['projector', 'serial', 'mode'] as const)
    if (texts[id].length > 120) problems[id] = 'At most 120 characters.';
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
    isFit:
      Object.keys(problems).length === 0 && typed.every((line) => Object.keys(line.problems).length === 0),
  };
}

export function isBlankLine({ hours, output, expanded, remark }: LineTexts): boolean {
  return [hours, output, expanded, remark].every((text) => text.trim() === '');
}

function understandLine(line: LineTexts): { problems: Problems<LineField>; point?: Measurement } {
  if (isBlankLine(line)) return { problems: {} };
  const problems: Partial<Record<LineField, string>> = {};
  const number = (id: 'hours' | 'output' | 'expanded', expected: Expectation) => {
    const { value, problem } = read(line[id], expected);
    if (problem) problems[id] = problem;
    return value;
  };
  const hours = number('hours', { what: 'hours', unit: '', min: 0, max: 1_000_000 });
  const output = number('output', { what: 'light output', ...LUMENS });
  const expanded = number('expanded', { what: 'U', unit: 'lm', min: 0, max: 1_000_000 });
  if (hours === undefined && !problems.hours) problems.hours = 'The hours of the light source are needed.';
  if (output === undefined && !problems.output) problems.output = 'The light output is needed.';
  if (line.remark.length > 120) problems.remark = 'At most 120 characters.';
  if (line.date !== '' && !isDay(line.date)) problems.date = 'A day of the calendar from 2000 on.';
  if (hours === undefined || output === undefined || Object.keys(problems).length > 0) return { problems };
  return {
    problems,
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
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && text >= '2000-01-01' && !Number.isNaN(Date.parse(text));
}
