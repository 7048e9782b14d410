import type { Line } from '../../src/csv/split';
import { RANGE_FACTOR } from '../../src/photometry/bounds';
import { SINGLE } from '../../src/photometry/reading';
import { type BatchField, fieldsOf } from '../../src/procurement/batch/columns';
import { SERIAL_MAX, serialKey } from '../../src/procurement/lot/serials';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import { markQuestion } from '../importing/questions';
import type { Choices, ReadLines } from '../importing/tableimport';
import { provenMark, type Question } from '../parse/block';
import { type Entry, readCell } from '../parse/cell';
import { readingOf } from '../parse/meterlog';
import { type DecimalMark, plainText, typedNumber } from '../parse/number';
import type { Decisions } from '../parse/target';
import { dayOf } from './logday';
import { readEntries } from './logentries';
import type { LogBatch, LogRow } from './logrow';
import { sequenceRows } from './logsequence';
import { type LogColumns, type LogTable, perLine } from './logtable';

export type LogRead = ReadLines<LogRow>;

export interface LogChoices extends Choices<LogColumns> {
  /** Whether units that the batch does not list go into its free lines. */
  readonly takesUnknown: boolean;
}

const FIELD_WORDS: readonly (readonly [BatchField, RegExp])[] = [
  ['white', /^(w|white|wei(ß|ss)|blanc)$/i],
  ['red', /^(r|red|rot|rouge)$/i],
  ['green', /^(g|green|grün|vert)$/i],
  ['blue', /^(b|blue|blau|bleu)$/i],
];
const HOURS_MAX = 1_000_000;

/** Reads every line of a log by what its columns are. */
export function readLog(table: LogTable, batch: LogBatch, choices: LogChoices): LogRead {
  const { columns, hasHeadings } = choices;
  const nothing = (objection: string): LogRead => ({ rows: [], questions: [], objection });
  if (table.columns < 2)
    return nothing('Each line must have a serial number and readings; these lines have one cell only.');
  const data = hasHeadings ? table.lines.slice(1) : table.lines;
  if (data.length === 0) return nothing('There is no line with readings.');
  const count = perLine(columns, batch.readings);
  const texts = columns.sequence
    ? data.map(({ cells }) => readingOf({ ...columns.sequence, value: columns.first }, cells))
    : data.flatMap(({ cells }) => cells.slice(columns.first, columns.first + count));
  const proof = provenMark(texts);
  const mark = choices.decisions.mark ?? proof?.mark;
  const rows = columns.sequence
    ? sequenceRows(data, batch, columns, choices.decisions, mark)
    : linesRows(data, batch, choices, mark);
  if (typeof rows === 'string') return nothing(rows);
  const isNeeded = proof && texts.some((text) => typedNumber(text).kind === 'ambiguous');
  return { rows, questions: questionsOf(rows), ...(isNeeded ? { proof } : {}), objection: '' };
}

function linesRows(
  data: LogTable['lines'],
  batch: LogBatch,
  choices: LogChoices,
  mark: DecimalMark | undefined,
): LogRow[] {
  const targets = targetsOf(data, choices.columns, batch, choices.takesUnknown);
  return data.map((line, i) =>
    line.fault
      ? {
          lines: [line],
          line: line.line,
          serial: '',
          isNew: false,
          entries: [],
          problems: [`Line ${line.line}: ${line.fault}.`],
        }
      : rowOf(line, batch, choices, mark, targets[i]!),
  );
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
    const key = serialKey(serial);
    if (key === '') return;
    if (listed.has(key)) twice.add(key);
    else listed.set(key, i);
  });
  const free = batch.serials.flatMap((serial, i) =>
    serialKey(serial) === '' && !batch.filled[i] ? [i] : [],
  );
  const given = new Map<string, number>();
  const serialOf = (cells: readonly string[]) => serialKey(cells[columns.serial ?? 0] ?? '');
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
  whole: Line,
  batch: LogBatch,
  { columns, decisions }: LogChoices,
  mark: DecimalMark | undefined,
  target: Target,
): LogRow {
  const { line, cells } = whole;
  const problems: string[] = target.problem ? [`Line ${line}: ${target.problem}.`] : [];
  const serial = serialKey(cells[columns.serial ?? 0] ?? '');
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
  const date = dayOf(text(columns.date));
  if (text(columns.date) !== '' && date === undefined)
    problems.push(
      `${at}, date: expected a day such as 2026-11-25 or 25.11.2026, came “${text(columns.date)}”.`,
    );
  const place = text(columns.place);
  if (place.length > TEXT_MAX) problems.push(`${at}, place: at most ${TEXT_MAX} characters.`);
  const range = number(columns.range, 'range factor', RANGE_FACTOR.min, RANGE_FACTOR.max, /^[×x] ?/i);
  const hours = number(columns.hours, 'run time', 0, HOURS_MAX, /\s*(h|hrs?|hours?|std\.?)$/i);
  const ambient = batch.isAmbientByRow ? ambientOf(text(columns.ambient), batch, mark, at) : undefined;
  if (typeof ambient === 'string') problems.push(ambient);
  return {
    lines: [whole],
    line,
    serial,
    ...(field ? { field } : {}),
    ...(target.at === undefined ? {} : { target: target.at }),
    isNew: target.isNew,
    entries,
    ...(range === undefined ? {} : { range }),
    ...(hours === undefined ? {} : { hours }),
    ...(typeof ambient === 'number' ? { ambient } : {}),
    ...(place === '' ? {} : { place }),
    ...(date ? { date } : {}),
    problems,
  };
}

/** The ambient light of a line, read as its readings are: in the meter's unit and no other. A sentence where it cannot be. */
function ambientOf(
  text: string,
  { unit }: LogBatch,
  mark: DecimalMark | undefined,
  at: string,
): number | string | undefined {
  const target = { label: 'ambient', shape: SINGLE, zero: 'reading' } as const;
  const entry = readCell(text, { target, index: 0, unit, mark, isLoneOne: false, ones: undefined, at });
  if (entry.kind === 'number') return entry.value;
  if (entry.kind === 'empty') return undefined;
  if (entry.kind === 'refused') return entry.message;
  const why = entry.kind === 'decimal?' ? ', which may be read in two ways' : '';
  return `${at}, ${entry.where}: expected a number in ${unit}, came “${entry.text}”${why}.`;
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
  const fields = columns.field === undefined ? fieldsOf(batch.readings) : [only ?? 'white'];
  const texts = Array.from(
    { length: perLine(columns, batch.readings) },
    (_, i) => cells[columns.first + i] ?? '',
  );
  return readEntries(texts, fields, batch, decisions, mark, () => at);
}

function questionsOf(rows: readonly LogRow[]): Question[] {
  const questions: Question[] = [];
  const entries = rows.flatMap(({ lines, entries: own }) =>
    own.map((entry, i) => ({ entry, line: (lines[i] ?? lines[0]!).line })),
  );
  const asked = entries.find(({ entry }) => entry.kind === 'decimal?');
  if (asked?.entry.kind === 'decimal?') questions.push(markQuestion(asked.entry, asked.line, 'log'));
  const ones = entries.flatMap(({ entry, line }) => (entry.kind === 'one?' ? [line] : []));
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

/** Whether a line can be taken: into a line of the batch, without a problem. */
export function isClean({ problems, target }: LogRow): boolean {
  return problems.length === 0 && target !== undefined;
}
