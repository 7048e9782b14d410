import { isOverRange } from '../../src/photometry/overrange';
import { plainText, typedNumber } from './number';
import { unitOf } from './units';

/** Columns of a meter's own log, which has one reading a line, counted from 0. */
export interface MeterLog {
  readonly value: number;
  /** Where the unit stands in a cell of its own. */
  readonly unit?: number;
  readonly number?: number;
  readonly date?: number;
  readonly time?: number;
  /** True where the numbers fall: the newest reading stands first. */
  readonly isBackwards: boolean;
}

type Kind = 'number' | 'date' | 'time' | 'unit' | 'reading' | 'other';

const TIME = /^\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?: ?[ap]\.?m\.?)?$/i;
const DATE = /^(?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.] ?\d{1,2}[-/.] ?\d{2,4})(?:[ T].*)?$/;
/** Of many columns of numbers the one with such a heading holds the readings. */
const VALUE = /value|reading|illumin|\blux\b|\blx\b|\bfc\b|wert|messung|valeur|mesure/i;
/** A column is of a kind if so large a part of its cells is: single cells may be spoilt. */
const MOSTLY = 0.8;
/** More lines tell no more about what the columns are. */
const LOOKED_AT = 200;

/** What a meter writes by itself: number, date, time, reading. Undefined for any other table. */
export function meterLog(
  rows: readonly (readonly string[])[],
  headings: readonly string[] = [],
): MeterLog | undefined {
  const seen = rows.slice(0, LOOKED_AT);
  const width = seen.reduce((most, row) => Math.max(most, row.length), 0);
  const columns = Array.from({ length: width }, (_, c) => seen.map((row) => plainText(row[c] ?? '')));
  const kinds = columns.map(kindOf);
  // Readings may rise by one as well: the last of the columns that count is then theirs.
  if (!kinds.includes('reading') && kinds.includes('number')) kinds[kinds.lastIndexOf('number')] = 'reading';
  const readings = kinds.flatMap((kind, c) => (kind === 'reading' ? [c] : []));
  const value = readings.length === 1 ? readings[0] : readings.find((c) => VALUE.test(headings[c] ?? ''));
  const at = (kind: Kind) => {
    const c = kinds.indexOf(kind);
    return c < 0 ? {} : { [kind]: c };
  };
  const beside = { ...at('number'), ...at('date'), ...at('time') } as Omit<MeterLog, 'value' | 'isBackwards'>;
  if (value === undefined || Object.keys(beside).length === 0) return undefined;
  const numbers = beside.number === undefined ? [] : columns[beside.number]!.map(Number);
  return { value, ...beside, ...at('unit'), isBackwards: numbers.length > 1 && numbers[1]! < numbers[0]! };
}

/** The reading of a line with its unit, as somebody would type it. */
export function readingOf(
  { value, unit }: Pick<MeterLog, 'value' | 'unit'>,
  cells: readonly string[],
): string {
  const text = cells[value] ?? '';
  return unit === undefined || !/\d$/.test(text.trim()) ? text : `${text} ${cells[unit] ?? ''}`;
}

export function isReading(cell: string | undefined): boolean {
  const text = plainText(cell ?? '');
  if (text === '') return false;
  const { kind } = typedNumber(text);
  return isOverRange(text) || kind === 'number' || kind === 'ambiguous';
}

function kindOf(cells: readonly string[]): Kind {
  const filled = cells.filter((cell) => cell !== '');
  const isMostly = (test: (cell: string) => boolean) =>
    filled.length > 0 && filled.filter(test).length >= MOSTLY * filled.length;
  if (isMostly((cell) => TIME.test(cell))) return 'time';
  if (isMostly((cell) => DATE.test(cell))) return 'date';
  if (isMostly((cell) => unitOf(cell) !== undefined)) return 'unit';
  if (isCount(cells)) return 'number';
  return isMostly(isReading) ? 'reading' : 'other';
}

/** Whole numbers that rise or fall by one, with few gaps where readings were deleted. */
function isCount(cells: readonly string[]): boolean {
  if (cells.length < 3 || !cells.every((cell) => /^\d{1,9}$/.test(cell))) return false;
  const steps = cells.slice(1).map((cell, i) => Number(cell) - Number(cells[i]));
  const way = Math.sign(steps[0]!);
  return (
    steps.every((step) => Math.sign(step) === way) &&
    way !== 0 &&
    steps.filter((step) => step === way).length >= MOSTLY * steps.length
  );
}
