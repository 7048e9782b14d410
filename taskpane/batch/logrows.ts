import { NINE, SINGLE } from '../../src/photometry/reading';
import type { IlluminanceUnit } from '../../src/photometry/units';
import { type BatchField, type BatchReadings, fieldsOf, pointsOf } from '../../src/procurement/batch/columns';
import { loneOnes, provenMark, type Question } from '../parse/block';
import { type Entry, readCell } from '../parse/cell';
import { type DecimalMark, plainText, typedNumber } from '../parse/number';
import { shown } from '../parse/quantity';
import type { Decisions } from '../parse/target';
import { type LogColumns, type LogTable, perLine } from './logtable';

/** The batch that a log goes into. */
export interface LogBatch {
  readonly readings: BatchReadings;
  readonly unit: IlluminanceUnit;
  /** Serial numbers line by line; empty where a line is free. */
  readonly serials: readonly string[];
  /** Whether a line has readings already. */
  readonly filled: readonly boolean[];
  /** Whether the ambient light stands in each line. */
  readonly isAmbientByRow: boolean;
}

/** One line of a log as understood. */
export interface LogRow {
  readonly line: number;
  readonly cells: readonly string[];
  readonly serial: string;
  /** The only field that the line has; all of them where there is none. */
  readonly field?: BatchField;
  /** Line of the batch, counted from 0. */
  readonly target?: number;
  /** True where the serial number goes into a free line. */
  readonly isNew: boolean;
  readonly entries: readonly Entry[];
  readonly range?: number;
  readonly ambient?: number;
  readonly place?: string;
  readonly hours?: number;
  /** ISO date. */
  readonly date?: string;
  /** Why the line cannot be taken; nothing of it is. */
  readonly problems: readonly string[];
}

export interface LogRead {
  readonly rows: readonly LogRow[];
  readonly questions: readonly Question[];
  /** Which decimal mark the numbers prove, where one could be read in two ways. */
  readonly proof?: { readonly mark: DecimalMark; readonly example: string };
  /** Why nothing can be read at all. */
  readonly objection: string;
}

export interface LogChoices {
  readonly columns: LogColumns;
  readonly hasHeadings: boolean;
  readonly decisions: Decisions;
  /** Whether units that the batch does not list go into its free lines. */
  readonly takesUnknown: boolean;
}

/** How serial numbers are told apart. */
export const keyOf = (serial: string) => plainText(serial).normalize('NFC');

const FIELD_WORDS: readonly (readonly [BatchField, RegExp])[] = [
  ['white', /^(w|white|wei(ß|ss)|blanc)$/i],
  ['red', /^(r|red|rot|rouge)$/i],
  ['green', /^(g|green|grün|vert)$/i],
  ['blue', /^(b|blue|blau|bleu)$/i],
];
const PLACE_MAX = 120;
const SERIAL_MAX = 80;
const HOURS_MAX = 1_000_000;
const RANGE_MAX = 1_000_000;

/** Reads every line of a log by what its columns are. */
export function readLog(table: LogTable, batch: LogBatch, choices: LogChoices): LogRead {
  const { columns, hasHeadings } = choices;
  const data = hasHeadings ? table.lines.slice(1) : table.lines;
  if (data.length === 0) return { rows: [], questions: [], objection: 'There is no line with readings.' };
  const count = perLine(columns, batch.readings);
  const texts = data.flatMap(({ cells }) => cells.slice(columns.first, columns.first + count));
  const proof = provenMark(texts);
  const mark = choices.decisions.mark ?? proof?.mark;
  const targets = targetsOf(data, columns, batch, choices.takesUnknown);
  const rows = data.map(({ line, cells }, i) => rowOf(line, cells, batch, choices, mark, targets[i]!));
  const isNeeded = proof && texts.some((text) => typedNumber(text).kind === 'ambiguous');
  return {
    rows,
    questions: questionsOf(rows),
    ...(isNeeded ? { proof } : {}),
    objection: '',
  };
}

interface Target {
  readonly at?: number;
  readonly isNew: boolean;
  readonly problem?: string;
}

/** Which line of the batch each line of the log belongs to, by serial number; or why to none. */
function targetsOf(
  data: LogTable['lines'],
  columns: LogColumns,
  batch: LogBatch,
  takesUnknown: boolean,
): Target[] {
  const listed = new Map<string, number>();
  const twice = new Set<string>();
  batch.serials.forEach((serial, i) => {
    const key = keyOf(serial);
    if (key === '') return;
    if (listed.has(key)) twice.add(key);
    else listed.set(key, i);
  });
  const free = batch.serials.flatMap((serial, i) => (keyOf(serial) === '' && !batch.filled[i] ? [i] : []));
  const given = new Map<string, number>();
  const serialOf = (cells: readonly string[]) => keyOf(cells[columns.serial ?? 0] ?? '');
  const fieldText = (cells: readonly string[]) =>
    columns.field === undefined ? '' : plainText(cells[columns.field] ?? '').toLowerCase();
  const lines = new Map<string, number[]>();
  for (const { line, cells } of data) {
    const key = `${serialOf(cells)}\n${fieldText(cells)}`;
    lines.set(key, [...(lines.get(key) ?? []), line]);
  }
  return data.map(({ cells }) => {
    const serial = serialOf(cells);
    if (serial === '') return { isNew: false, problem: 'it has no serial number' };
    if (serial.length > SERIAL_MAX)
      return { isNew: false, problem: `its serial number has over ${SERIAL_MAX} characters` };
    const own = lines.get(`${serial}\n${fieldText(cells)}`)!;
    if (own.length > 1)
      return {
        isNew: false,
        problem: `“${serial}” stands in lines ${own.join(', ')}: which one counts is for you to say`,
      };
    if (twice.has(serial)) return { isNew: false, problem: `“${serial}” stands in the batch more than once` };
    const at = listed.get(serial) ?? given.get(serial);
    if (at !== undefined) return { at, isNew: given.has(serial) };
    if (!takesUnknown) return { isNew: false, problem: `“${serial}” is not in the batch` };
    const next = free[given.size];
    if (next === undefined)
      return { isNew: false, problem: `“${serial}” is not in the batch, and no line is free` };
    given.set(serial, next);
    return { at: next, isNew: true };
  });
}

function rowOf(
  line: number,
  cells: readonly string[],
  batch: LogBatch,
  { columns, decisions }: LogChoices,
  mark: DecimalMark | undefined,
  target: Target,
): LogRow {
  const problems: string[] = target.problem ? [`Line ${line}: ${target.problem}.`] : [];
  const serial = keyOf(cells[columns.serial ?? 0] ?? '');
  const at = `Line ${line}${serial ? `, ${serial}` : ''}`;
  const text = (column: number | undefined) => (column === undefined ? '' : plainText(cells[column] ?? ''));
  const number = (column: number | undefined, what: string, min: number, max: number, unit?: RegExp) => {
    const raw = unit ? text(column).replace(unit, '') : text(column);
    if (raw === '') return undefined;
    const typed = typedNumber(raw, mark);
    const isFit = typed.kind === 'number' && typed.unit === '' && typed.value >= min && typed.value <= max;
    if (!isFit)
      problems.push(`${at}, ${what}: expected a number from ${min} to ${max}, came “${text(column)}”.`);
    return isFit ? typed.value : undefined;
  };
  const field = FIELD_WORDS.find(([, words]) => words.test(text(columns.field)))?.[0];
  if (columns.field !== undefined && !field)
    problems.push(`${at}, field: expected white, red, green or blue, came “${text(columns.field)}”.`);
  const entries = entriesOf(cells, batch, columns, decisions, mark, field, at);
  for (const entry of entries) if (entry.kind === 'refused') problems.push(entry.message);
  const beyond = cells
    .slice(columns.first + entries.length)
    .filter((cell, i) => cell.trim() !== '' && !isMapped(columns, columns.first + entries.length + i));
  if (beyond.length > 0)
    problems.push(`${at}: expected ${entries.length} readings, came ${entries.length + beyond.length}.`);
  if (entries.every(({ kind }) => kind === 'empty')) problems.push(`${at}: there is no reading in it.`);
  const date = dateOf(text(columns.date));
  if (text(columns.date) !== '' && date === undefined)
    problems.push(
      `${at}, date: expected a day such as 2026-11-25 or 25.11.2026, came “${text(columns.date)}”.`,
    );
  const place = text(columns.place);
  if (place.length > PLACE_MAX) problems.push(`${at}, place: at most ${PLACE_MAX} characters.`);
  const range = number(columns.range, 'range factor', 0.000001, RANGE_MAX, /^[×x] ?/i);
  const hours = number(columns.hours, 'run time', 0, HOURS_MAX, /\s*(h|hrs?|hours?|std\.?)$/i);
  const ambient = batch.isAmbientByRow
    ? number(columns.ambient, 'ambient light', 0, 200_000, /\s*(lx|lux|fc)$/i)
    : undefined;
  return {
    line,
    cells,
    serial,
    ...(field ? { field } : {}),
    ...(target.at === undefined ? {} : { target: target.at }),
    isNew: target.isNew,
    entries,
    ...(range === undefined ? {} : { range }),
    ...(hours === undefined ? {} : { hours }),
    ...(ambient === undefined ? {} : { ambient }),
    ...(place === '' ? {} : { place }),
    ...(date ? { date } : {}),
    problems,
  };
}

function isMapped(columns: LogColumns, column: number): boolean {
  const { first: _, ...named } = columns;
  return Object.values(named).includes(column);
}

/** The readings of a line, field by field; where the line is of one field, only its own. */
function entriesOf(
  cells: readonly string[],
  batch: LogBatch,
  columns: LogColumns,
  decisions: Decisions,
  mark: DecimalMark | undefined,
  only: BatchField | undefined,
  at: string,
): Entry[] {
  const points = pointsOf(batch.readings);
  const shape = points === 1 ? SINGLE : NINE;
  const fields = columns.field === undefined ? fieldsOf(batch.readings) : [only ?? 'white'];
  const own = Array.from(
    { length: perLine(columns, batch.readings) },
    (_, i) => cells[columns.first + i] ?? '',
  );
  return fields.flatMap((field, f) => {
    const texts = own.slice(f * points, (f + 1) * points);
    const lone = loneOnes(texts, mark);
    const target = { label: field, name: '', shape, zero: 'missing' } as const;
    return texts.map((text, index) =>
      readCell(text, {
        target,
        index,
        unit: batch.unit,
        mark,
        isLoneOne: lone.has(index),
        ones: decisions.ones,
        at,
      }),
    );
  });
}

/** 2026-11-25, 25.11.2026. Slashes are read one way here and the other way there, so they are asked for anew. */
function dateOf(text: string): string | undefined {
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[ T].*)?$/.exec(text);
  const dotted = /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})(?: .*)?$/.exec(text);
  const [year, month, day] = iso ? iso.slice(1) : dotted ? dotted.slice(1).reverse() : [];
  if (!year || !month || !day) return undefined;
  const date = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  const time = Date.parse(`${date}T00:00:00Z`);
  const isDay = !Number.isNaN(time) && new Date(time).toISOString().startsWith(date);
  return isDay && date >= '2000-01-01' ? date : undefined;
}

function questionsOf(rows: readonly LogRow[]): Question[] {
  const questions: Question[] = [];
  for (const { line, entries } of rows) {
    const asked = entries.find((entry) => entry.kind === 'decimal?');
    if (asked?.kind !== 'decimal?') continue;
    questions.push({
      asks: 'mark',
      message: `“${asked.text}” in line ${line} can mean ${shown(asked.point)} or ${shown(asked.comma)}. Which mark do the decimals of this log have?`,
      answers: [
        { label: `${shown(asked.point)}: the point is the decimal mark`, decision: { mark: 'point' } },
        { label: `${shown(asked.comma)}: the comma is the decimal mark`, decision: { mark: 'comma' } },
      ],
    });
    break;
  }
  const ones = rows.flatMap(({ line, entries }) =>
    entries.filter(({ kind }) => kind === 'one?').map(() => line),
  );
  if (ones.length > 0) {
    questions.push({
      asks: 'ones',
      message: `A lone 1 among much larger readings stands in ${ones.length === 1 ? `line ${ones[0]}` : `${ones.length} cells, the first in line ${ones[0]}`}. On many meters that means over range.`,
      answers: [
        { label: 'It means over range', decision: { ones: 'over range' } },
        { label: 'The reading is 1', decision: { ones: 'number' } },
      ],
    });
  }
  return questions;
}

/** Lines that can be taken: into a line of the batch, without a problem or an open question. */
export function cleanRows({ rows, questions, objection }: LogRead): readonly LogRow[] {
  if (objection !== '' || questions.length > 0) return [];
  return rows.filter(({ problems, target }) => problems.length === 0 && target !== undefined);
}

/** Where a line's readings begin in the row of the batch, counted from 0. */
export function offsetOf({ field }: LogRow, readings: BatchReadings): number {
  return field === undefined ? 0 : fieldsOf(readings).indexOf(field) * pointsOf(readings);
}
