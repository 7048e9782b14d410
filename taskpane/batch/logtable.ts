import { likelyMarks, type Refusal, readTable, type Table } from '../../src/csv/table';
import { type BatchReadings, countOf, pointsOf } from '../../src/procurement/batch/columns';
import { serialKey } from '../../src/procurement/lot/serials';
import type { ImportTable } from '../importing/tableimport';
import { isReading, meterLog } from '../parse/meterlog';

/** What a column of a log can be beside a reading. */
export const LOG_FIELDS = ['serial', 'place', 'hours', 'date', 'range', 'ambient', 'field'] as const;
export type LogField = (typeof LOG_FIELDS)[number];

/** Which column is what, counted from 0; the readings stand from `first` on, one after the other. */
export type LogColumns = Readonly<Partial<Record<LogField, number>>> & {
  readonly first: number;
  /** A meter's own log: one reading a line, at `first`, in the order of the batch, and no serial number. */
  readonly sequence?: {
    readonly unit?: number;
    readonly isBackwards: boolean;
    /** Serial number of the unit it begins with; empty: the units without readings, in their order. */
    readonly from: string;
    /** Whose readings they are, once some of them are written: serial numbers in the order of the log. */
    readonly units?: readonly string[];
  };
};

/** A meter's log taken apart into cells. */
export type LogTable = ImportTable<LogColumns>;

/** More than 5000 units of 36 readings need. */
export const LOG_MAX = 12_000_000;
/** One line for each of their readings. */
const LINES_MAX = 5000 * 36;

/** Text of a file or the clipboard → cells; or why it is no log. */
export function readLogTable(
  text: string,
  readings: BatchReadings,
  serials: readonly string[] = [],
): LogTable | Refusal | undefined {
  const known = new Set(serials.filter((serial) => serial !== ''));
  return readTable<LogTable>(text, {
    bounds: { what: 'a log of 5000 units', characters: LOG_MAX, lines: LINES_MAX },
    marks: likelyMarks,
    describe: (table) => described(table, readings, known),
    // Where a text can be taken apart in several ways, the one whose lines have the right number of readings was meant.
    score: (table) => score(table, readings),
  });
}

/** Words of headings, most particular first. English, and some words of neighbours. */
const HEADINGS: readonly (readonly [LogField, RegExp])[] = [
  ['ambient', /ambient|room light|umgebung|dark/],
  ['hours', /run ?time|hours|stunden|heures|^h$/],
  ['range', /range|bereich|gamme/],
  ['date', /date|datum|day/],
  ['place', /place|room|site|location|\bort\b|raum|salle/],
  ['field', /field|colou?r|farbe|couleur|pattern/],
  ['serial', /serial|s\/n|^sn$|unit|device|serie|gerät|number|^no\.?$|^id$/],
];
/** Headings of readings: W1, white 3, point 5, top left … */
const READING =
  /^(w|r|g|b|white|red|green|blue|wei(ß|ss)|rot|grün|blau|point|p|lx|fc|lux|reading)[ _.-]*\d*$|top|middle|bottom|cent(re|er)/;

/** What a column that names the field holds. */
const FIELD = /^(w|white|wei(ß|ss)|blanc|r|red|rot|rouge|g|green|grün|vert|b|blue|blau|bleu)$/i;

/** What the columns are, by their headings and by what stands in them. */
function guessColumns(
  headings: readonly string[],
  rows: readonly (readonly string[])[],
  readings: BatchReadings,
): LogColumns {
  const named = headings.map((heading) => {
    const text = heading.replace(/\s+/g, ' ').trim().toLowerCase();
    if (READING.test(text)) return 'reading';
    return HEADINGS.find(([, words]) => words.test(text))?.[0];
  });
  const found: Partial<Record<LogField, number>> = {};
  named.forEach((field, column) => {
    if (field !== undefined && field !== 'reading') found[field] ??= column;
  });
  const serial = found.serial ?? 0;
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  const columns = Array.from({ length: width }, (_, column) => column).filter((column) => column !== serial);
  found.field ??= columns.find((column) => rows.every((row) => FIELD.test((row[column] ?? '').trim())));
  if (found.field === undefined || countOf(readings) === pointsOf(readings)) delete found.field;
  const byName = named.indexOf('reading');
  if (byName >= 0) return { ...found, serial, first: byName };
  // Without headings readings run to the end of the line, as most lines have it: one bad cell, or one line that is
  // too long, must not push them on by a column.
  const isMostly = (column: number) => rows.filter((row) => isReading(row[column])).length * 2 > rows.length;
  const wanted = perLine({ ...found, first: 0 }, readings);
  const fits = (first: number) =>
    columns.filter((column) => column >= first && column < first + wanted && isMostly(column)).length >=
    Math.max(1, wanted - 1);
  const fromEnd = usualLength(rows) - wanted;
  const taken = new Set(Object.values(found));
  const first =
    fromEnd > serial && fits(fromEnd)
      ? fromEnd
      : columns.find((column) => column > serial && !taken.has(column) && fits(column));
  return { ...found, serial, first: first ?? serial + 1 };
}

/** How many cells most lines have; of two lengths equally often the smaller one. */
function usualLength(rows: readonly (readonly string[])[]): number {
  const counts = new Map<number, number>();
  for (const row of rows) {
    let length = row.length;
    while (length > 0 && (row[length - 1] ?? '').trim() === '') length--;
    counts.set(length, (counts.get(length) ?? 0) + 1);
  }
  const [usual] = [...counts].sort(([a, m], [b, n]) => n - m || a - b);
  return usual?.[0] ?? 0;
}

function described(table: Table, readings: BatchReadings, serials: ReadonlySet<string>): LogTable {
  const { lines } = table;
  const first = lines[0]?.cells ?? [];
  const isHeading = (cell: string) => {
    const text = cell.replace(/\s+/g, ' ').trim().toLowerCase();
    return READING.test(text) || HEADINGS.some(([, words]) => words.test(text));
  };
  const hasWords = first.filter(isHeading).length > 1 && !first.slice(1).some(isReading);
  const hasHeadings =
    hasWords || (lines.length > 1 && !first.some((cell) => /\d/.test(cell)) && first.length > 1);
  const data = (hasHeadings ? lines.slice(1) : lines).slice(0, 200).map(({ cells }) => cells);
  const headings = hasHeadings ? first : [];
  const guess = sequenceOf(headings, data, readings, serials) ?? guessColumns(headings, data, readings);
  return { ...table, hasHeadings: hasWords || (hasHeadings && guess.sequence !== undefined), guess };
}

/** A log without serial numbers, one reading a line: what its columns are; undefined for any other table. */
function sequenceOf(
  headings: readonly string[],
  rows: readonly (readonly string[])[],
  readings: BatchReadings,
  serials: ReadonlySet<string>,
): LogColumns | undefined {
  const log = meterLog(rows, headings);
  if (!log) return undefined;
  const isSerial = (column: number) => rows.some((row) => serials.has(serialKey(row[column] ?? '')));
  if (rows[0]?.some((_, column) => column !== log.value && isSerial(column))) return undefined;
  // A number beside the one reading of a unit may be its serial number.
  if (countOf(readings) === 1 && log.date === undefined && log.time === undefined) return undefined;
  const { value, date, unit, isBackwards } = log;
  return {
    first: value,
    ...(date === undefined ? {} : { date }),
    sequence: { ...(unit === undefined ? {} : { unit }), isBackwards, from: '' },
  };
}

/** Readings that one line holds: all of a unit, those of one field, or one. */
export function perLine(columns: LogColumns, readings: BatchReadings): number {
  if (columns.sequence) return 1;
  return columns.field === undefined ? countOf(readings) : pointsOf(readings);
}

function score({ lines, hasHeadings, guess, columns }: LogTable, readings: BatchReadings): number {
  if (columns < 2) return -1;
  const data = (hasHeadings ? lines.slice(1) : lines).slice(0, 200);
  const wanted = perLine(guess, readings);
  const fits = data.map(({ cells }) => {
    if (guess.sequence) return isReading(cells[guess.first]) ? 2 : 0;
    const own = cells.slice(guess.first).filter((cell) => cell.trim() !== '');
    const readable = own.filter(isReading).length;
    return own.length === wanted && readable === wanted ? 2 : readable / Math.max(own.length, wanted);
  });
  return fits.reduce((sum, one) => sum + one, 0) / Math.max(1, data.length);
}
