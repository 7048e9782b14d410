import type { Line } from '../csv/split';
import { isRefusal, type Reader, readTable, type Table } from '../csv/table';
import { isOverRange } from '../photometry/overrange';
import { cellsOf } from '../sheets/address';
import type { Plan } from '../sheets/plan';
import { Failure } from './failure';

/** One line of a readings file. */
export interface ReadingLine {
  readonly line: number;
  /** 1 for the first run of the set-up file. */
  readonly run: number;
  readonly field: string;
  readonly point: number;
  readonly repeat: number;
  readonly reading: number | 'over' | undefined;
  readonly range: number | undefined;
}

/** Names of the readings and the range factors of a field; repeats have names of their own. */
const FIELDS: Readonly<Record<string, { readings: string; range: string; stem: string }>> =
  Object.fromEntries([
    ...['White', 'Red', 'Green', 'Blue', 'Black', 'Ambient', 'Corner', 'Board'].map((stem) => [
      stem.toLowerCase(),
      { readings: `${stem}Readings`, range: `${stem}Range`, stem },
    ]),
    ...['A', 'B', 'C'].map((letter) => [
      `pattern ${letter.toLowerCase()}`,
      { readings: `Pattern${letter}`, range: `Pattern${letter}Range`, stem: `Pattern${letter}` },
    ]),
    ['last', { readings: 'LastReading', range: 'LastRange', stem: 'Last' }],
  ]);

const COLUMNS = ['field', 'point', 'reading', 'range', 'repeat', 'run'] as const;
type Column = (typeof COLUMNS)[number];

/** More rows than any run has readings; a file beyond it was chosen by mistake. */
const READINGS: Reader<Table> = {
  bounds: { what: 'a file of readings', characters: 2_000_000, lines: 10_000 },
  marks: () => ['comma', 'semicolon', 'tab'],
  describe: (table) => ({ ...table, lines: table.lines.filter(({ cells }) => !cells[0]!.startsWith('#')) }),
  // Apart from them the heading has one cell.
  score: ({ lines }) => lines[0]?.cells.length ?? 0,
};

/** The lines of a readings file; those that begin with `#` are left out. @throws Failure that names the line */
export function readReadings(text: string, path: string): ReadingLine[] {
  const table = readTable(text, READINGS);
  if (isRefusal(table)) throw new Failure(`${path}: ${table.message}`);
  try {
    const [head, ...lines] = table?.lines ?? [];
    if (!table || !head) throw new LineError(1, 'the file is empty');
    const columns = columnsOf(head);
    const decimals = table.mark === 'comma' ? 'point' : decimalsOf(lines, columns);
    return lines.map((row) => readLine(row, columns, decimals));
  } catch (cause) {
    if (!(cause instanceof LineError)) throw cause;
    throw new Failure(`${path}, ${cause.message}.`, 'light build --help shows what the file looks like.', {
      cause,
    });
  }
}

/** A line that is not what it should be: where, and what was expected. */
class LineError extends Error {
  constructor(line: number, message: string) {
    super(`line ${line}: ${message}`);
    this.name = 'LineError';
  }
}

/** The cells of a line. @throws LineError where they cannot be told apart */
function trimmed({ line, cells, fault }: Line): string[] {
  if (fault) throw new LineError(line, fault);
  return cells.map((cell) => cell.trim());
}

function columnsOf(head: Line): Map<Column, number> {
  const { line } = head;
  const found = new Map<Column, number>();
  trimmed(head).forEach((cell, at) => {
    const name = COLUMNS.find((column) => column === cell.toLowerCase());
    if (!name)
      throw new LineError(line, `there is no column "${cell}"; the columns are ${COLUMNS.join(', ')}`);
    if (found.has(name)) throw new LineError(line, `the column ${name} stands there twice`);
    found.set(name, at);
  });
  for (const name of ['field', 'point', 'reading'] as const) {
    if (!found.has(name)) throw new LineError(line, `the column ${name} is missing`);
  }
  return found;
}

/** What stands before the decimals in a file: a point; where commas separate nothing, a comma, which a cell may prove. */
type Decimals = 'point' | 'either' | 'comma';

/** "1,234" and "1.234" alike: thousands or decimals, a factor of 1000 apart. */
const TWO_WAYS = /^[1-9]\d{0,2}([.,])\d{3}$/;

/** A cell such as "2,5", which is read in one way only, proves the comma for the others, unless one has a point. */
function decimalsOf(lines: readonly Line[], columns: Map<Column, number>): Decimals {
  const texts = lines.flatMap(({ cells }) =>
    (['reading', 'range'] as const).map((column) => (cells[columns.get(column) ?? -1] ?? '').trim()),
  );
  const plain = texts.filter((text) => !TWO_WAYS.test(text));
  const has = (mark: RegExp) => plain.some((text) => mark.test(text));
  return has(/^\d*,\d+$/) && !has(/^\d*\.\d+$/) ? 'comma' : 'either';
}

function readLine(row: Line, columns: Map<Column, number>, decimals: Decimals): ReadingLine {
  const { line } = row;
  const cells = trimmed(row);
  const text = (column: Column) => cells[columns.get(column) ?? -1] ?? '';
  const field = text('field').toLowerCase().replace(/\s+/g, ' ');
  if (!Object.hasOwn(FIELDS, field)) {
    throw new LineError(
      line,
      `there is no field "${text('field')}"; the fields are ${Object.keys(FIELDS).join(', ')}`,
    );
  }
  if (cells.length > columns.size && cells.slice(columns.size).some((cell) => cell !== '')) {
    throw new LineError(line, `there are ${cells.length} columns, ${columns.size} in the heading`);
  }
  const number = (column: Column) => numberIn(text(column), line, column, decimals);
  const whole = (column: Column, otherwise: number) => {
    const value = number(column) ?? otherwise;
    if (!Number.isInteger(value) || value < 1) {
      throw new LineError(line, `the ${column} is ${value}; it must be a whole number from 1 on`);
    }
    return value;
  };
  const isOver = isOverRange(text('reading'));
  return {
    line,
    field,
    run: whole('run', 1),
    point: whole('point', 1),
    repeat: whole('repeat', 1),
    reading: isOver ? 'over' : number('reading'),
    range: number('range'),
  };
}

/** A number as a person types it into a table: a decimal comma only where commas separate nothing. */
function numberIn(text: string, line: number, column: Column, decimals: Decimals): number | undefined {
  if (text === '') return undefined;
  const [own, other] = decimals === 'comma' ? [',', '.'] : ['.', ','];
  if (decimals !== 'point' && TWO_WAYS.exec(text)?.[1] === other) {
    throw new LineError(
      line,
      `the ${column} may be read in two ways: expected ${text.replace(other, '')} or ${text.replace(other, own)}, came "${text}"`,
    );
  }
  const plain = decimals !== 'point' ? text.replace(',', '.') : text;
  if (!/^\d+(\.\d*)?$|^\.\d+$/.test(plain)) {
    throw new LineError(
      line,
      `the ${column} is "${text}"; it must be a number at least 0, without unit or thousands separator`,
    );
  }
  const value = Number(plain);
  if (!Number.isFinite(value))
    throw new LineError(line, `the ${column} is too large, with ${text.length} digits`);
  return value;
}

/** A plan with the readings of its run typed in. @throws Failure for a reading that has no place on the sheet */
export function fillPlan(plan: Plan, lines: readonly ReadingLine[], path: string): Plan {
  const cells = { ...plan.cells };
  /** Lines by the cell they went into. */
  const taken = new Map<string, number>();
  const put = (name: string, point: number, value: number | string, line: number) => {
    const range = plan.names.find((each) => each.name === name)?.range;
    if (range === undefined) throw noPlace(path, line, `the set-up has no ${name}`);
    const at = cellsOf(range)[point - 1];
    if (at === undefined)
      throw noPlace(path, line, `${name} has ${cellsOf(range).length} points, not ${point}`);
    if (cells[at]!.formula !== undefined) throw noPlace(path, line, `${name} is computed, not typed`);
    // Said twice alike, as a range factor is with every repeat, it is no contradiction.
    const before = taken.get(at);
    if (before !== undefined && cells[at]!.value !== value)
      throw noPlace(path, line, `point ${point} of ${name} was given in line ${before} already`);
    taken.set(at, before ?? line);
    cells[at] = { ...cells[at]!, value };
  };
  for (const { line, field, point, repeat, reading, range } of lines) {
    const { readings, range: ranges, stem } = FIELDS[field]!;
    if (reading !== undefined) put(repeat === 1 ? readings : `${stem}Repeat${repeat}`, point, reading, line);
    // One range factor serves the whole board.
    if (range !== undefined) put(ranges, field === 'board' ? 1 : point, range, line);
  }
  return { ...plan, cells };
}

function noPlace(path: string, line: number, why: string): Failure {
  return new Failure(`${path}, line ${line}: there is no place for this reading: ${why}.`);
}
