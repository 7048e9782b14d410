import { isOverRange } from '../../src/photometry/reading';
import { type BatchReadings, countOf, pointsOf } from '../../src/procurement/batch/columns';
import { type Table, tables } from '../parse/delimited';
import { plainText, typedNumber } from '../parse/number';

/** What a column of a log can be beside a reading. */
export const LOG_FIELDS = ['serial', 'place', 'hours', 'date', 'range', 'ambient', 'field'] as const;
export type LogField = (typeof LOG_FIELDS)[number];

/** Which column is what, counted from 0; the readings stand from `first` on, one after the other. */
export type LogColumns = Readonly<Partial<Record<LogField, number>>> & { readonly first: number };

/** A meter's log taken apart into cells. */
export interface LogTable {
  readonly how: string;
  /** Lines with any text, with their place in the file, counted from 1. */
  readonly lines: readonly { readonly line: number; readonly cells: readonly string[] }[];
  readonly columns: number;
  /** True where the first line looks like headings. */
  readonly hasHeadings: boolean;
  readonly guess: LogColumns;
}

/** More than 5000 units of 36 readings need. */
export const LOG_MAX = 6_000_000;

/** Text of a file or the clipboard → cells; or why it is no log; empty for nothing yet. */
export function readTable(text: string, readings: BatchReadings): LogTable | string {
  if (text.trim() === '') return '';
  if (text.length > LOG_MAX) return 'This is far more text than a log of 5000 units: choose another file.';
  if (text.includes('\u0000')) return 'This is not a text file. Save the log as text or CSV first.';
  const ways = tables(text).map((table) => described(table, readings));
  // Where a text can be taken apart in several ways, the one whose lines have the right number of readings was meant.
  const best = ways.reduce((a, b) => (score(b, readings) > score(a, readings) ? b : a));
  if (best.columns < 2)
    return 'Each line must have a serial number and readings; these lines have one cell only.';
  return best;
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
  const width = Math.max(0, ...rows.map((row) => row.length));
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

function isReading(cell: string | undefined): boolean {
  const text = plainText(cell ?? '');
  if (text === '') return false;
  const { kind } = typedNumber(text);
  return isOverRange(text) || kind === 'number' || kind === 'ambiguous';
}

function described({ delimiter, rows }: Table, readings: BatchReadings): LogTable {
  const lines = rows
    .map((cells, i) => ({ line: i + 1, cells }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const first = lines[0]?.cells ?? [];
  const isHeading = (cell: string) => {
    const text = cell.replace(/\s+/g, ' ').trim().toLowerCase();
    return READING.test(text) || HEADINGS.some(([, words]) => words.test(text));
  };
  const hasHeadings = first.filter(isHeading).length > 1 && !first.slice(1).some(isReading);
  const data = (hasHeadings ? lines.slice(1) : lines).slice(0, 200).map(({ cells }) => cells);
  return {
    how: delimiter === 'none' ? 'Only one column was found.' : `Cells end at each ${delimiter}.`,
    lines,
    columns: first.length,
    hasHeadings,
    guess: guessColumns(hasHeadings ? first : [], data, readings),
  };
}

/** Readings that one line holds: all of a unit, or those of one field. */
export function perLine(columns: LogColumns, readings: BatchReadings): number {
  return columns.field === undefined ? countOf(readings) : pointsOf(readings);
}

function score({ lines, hasHeadings, guess, columns }: LogTable, readings: BatchReadings): number {
  if (columns < 2) return -1;
  const data = (hasHeadings ? lines.slice(1) : lines).slice(0, 200);
  const wanted = perLine(guess, readings);
  const fits = data.map(({ cells }) => {
    const own = cells.slice(guess.first).filter((cell) => cell.trim() !== '');
    const readable = own.filter(isReading).length;
    return own.length === wanted && readable === wanted ? 2 : readable / Math.max(own.length, wanted);
  });
  return fits.reduce((sum, one) => sum + one, 0) / Math.max(1, data.length);
}
