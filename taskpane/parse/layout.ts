import type { Mark } from '../../src/csv/split';
import { meterLog, readingOf } from './meterlog';
import type { BlockTarget, Turn } from './target';

type Rows = readonly (readonly string[])[];

/** One way a pasted table fills the wanted grids. */
export interface Fit {
  readonly how: readonly string[];
  /** The readings came one after another, so that how the rows were walked makes a difference. */
  readonly isSequence: boolean;
  /** One grid of texts for each target. */
  readonly grids: readonly Rows[];
}

/** The ways a table fits the wanted grids: none or one as it stands, else without separators or headings. */
export function layOut(
  rows: Rows,
  mark: Mark,
  targets: readonly BlockTarget[],
  turn: Turn = 'from the left',
): Fit[] {
  const split = mark === 'none' ? [] : [`Cells end at each ${mark}.`];
  for (const { rows: kept, said } of [
    { rows, said: [] },
    { rows: withoutBlankLines(rows), said: ['Empty rows and columns between the blocks are left out.'] },
    { rows: withoutHeadings(rows), said: ['The first row holds headings and is left out.'] },
    ...readingsOf(rows),
  ]) {
    const found = targets.length === 1 ? single(kept, targets[0]!, turn) : several(kept, targets, turn);
    if (found) return [{ ...found, how: [...split, ...said, ...found.how] }];
  }
  return [];
}

/** "3 × 3 readings, or 9 in one row or column". */
export function shapesWanted(targets: readonly BlockTarget[]): string {
  const { rows, columns } = targets[0]!.shape;
  const n = rows * columns;
  if (targets.length === 1 && n === 1) return 'one reading';
  const one = `${rows} \u00d7 ${columns} readings, or ${n} in one row or column`;
  if (targets.length === 1) return one;
  if (!isUniform(targets)) {
    const list = targets.map((target) => `${target.label} ${sizeOf(target)}`).join(', ');
    return `${totalOf(targets)} readings in one row or column, in the order of measuring: ${list}`;
  }
  const names = targets.map(({ label }) => label).join(', ');
  return `${targets.length} blocks of ${rows} \u00d7 ${columns} (${names}) one below or beside another, ${n} columns with one row a block, ${n} rows with one column a block, or ${n * targets.length} readings in one row or column`;
}

const sizeOf = ({ shape }: BlockTarget) => shape.rows * shape.columns;
const totalOf = (targets: readonly BlockTarget[]) => targets.reduce((sum, target) => sum + sizeOf(target), 0);

function isUniform(targets: readonly BlockTarget[]): boolean {
  const [{ shape }] = targets as readonly [BlockTarget];
  return targets.every((one) => one.shape.rows === shape.rows && one.shape.columns === shape.columns);
}

const READ: Readonly<Record<Turn, string>> = {
  'from the left': 'read row by row from top left',
  'there and back': 'read row by row from top left, every second row from the right',
};

function single(rows: Rows, { shape }: BlockTarget, turn: Turn): Fit | undefined {
  const { rows: high, columns: wide } = shape;
  const n = high * wide;
  if (has(rows, high, wide))
    return {
      how: n === 1 ? [] : [`${high} \u00d7 ${wide}, laid out as pasted.`],
      isSequence: false,
      grids: [rows],
    };
  if (!has(rows, n, 1) && !has(rows, 1, n)) return undefined;
  return {
    how: [`One ${rows.length === 1 ? 'row' : 'column'} of ${n}, ${READ[turn]}.`],
    isSequence: true,
    grids: [inRows(rows.flat(), wide, turn)],
  };
}

function several(rows: Rows, targets: readonly BlockTarget[], turn: Turn): Fit | undefined {
  const { rows: high, columns: wide } = targets[0]!.shape;
  const n = high * wide;
  const k = targets.length;
  const order = targets.map(({ label }) => label).join(', ');
  const each = (make: (i: number) => Rows) => targets.map((_, i) => make(i));
  const reading = `each ${READ[turn]}`;
  const isSquare = isUniform(targets);
  if (isSquare && has(rows, high * k, wide)) {
    return {
      how: [`Blocks one below another: ${order}.`],
      isSequence: false,
      grids: each((i) => rows.slice(i * high, (i + 1) * high)),
    };
  }
  if (isSquare && has(rows, high, wide * k)) {
    return {
      how: [`Blocks side by side: ${order}.`],
      isSequence: false,
      grids: each((i) => rows.map((row) => row.slice(i * wide, (i + 1) * wide))),
    };
  }
  if (isSquare && has(rows, k, n))
    return {
      how: [`One row a block: ${order}; ${reading}.`],
      isSequence: true,
      grids: each((i) => inRows(rows[i]!, wide, turn)),
    };
  if (isSquare && has(rows, n, k)) {
    return {
      how: [`One column a block: ${order}; ${reading}.`],
      isSequence: true,
      grids: each((i) =>
        inRows(
          rows.map((row) => row[i]!),
          wide,
          turn,
        ),
      ),
    };
  }
  const total = totalOf(targets);
  if (!has(rows, total, 1) && !has(rows, 1, total)) return undefined;
  const flat = rows.flat();
  const ends = targets.map((_, i) => totalOf(targets.slice(0, i + 1)));
  return {
    how: [`${total} in one ${rows.length === 1 ? 'row' : 'column'}: ${order}; ${reading}.`],
    isSequence: true,
    grids: targets.map(({ shape }, i) => inRows(flat.slice(ends[i - 1] ?? 0, ends[i]), shape.columns, turn)),
  };
}

function has(rows: Rows, high: number, wide: number): boolean {
  return rows.length === high && rows.every((row) => row.length === wide);
}

function inRows(flat: readonly string[], wide: number, turn: Turn): string[][] {
  return Array.from({ length: Math.ceil(flat.length / wide) }, (_, r) => {
    const row = flat.slice(r * wide, (r + 1) * wide);
    return turn === 'there and back' && r % 2 === 1 ? row.reverse() : row;
  });
}

const isBlank = (cell: string | undefined) => (cell ?? '').trim() === '';

/** Drops rows and columns that hold nothing at all: the gaps between blocks. */
function withoutBlankLines(rows: Rows): Rows {
  const columns = rows[0]?.map((_, c) => rows.some((row) => !isBlank(row[c]))) ?? [];
  return rows.filter((row) => !row.every(isBlank)).map((row) => row.filter((_, c) => columns[c]));
}

/** Drops a first row without a single digit. */
function withoutHeadings(rows: Rows): Rows {
  const [first, ...others] = rows;
  const isHeading = first?.some((cell) => !isBlank(cell)) && first.every((cell) => !/\d/.test(cell));
  return isHeading ? others : rows;
}

/** The readings of a meter's own log in one column; nothing for any other table. */
function readingsOf(rows: Rows): { rows: Rows; said: string[] }[] {
  const filled = rows.filter((row) => !row.every(isBlank));
  const data = withoutHeadings(filled);
  const log = meterLog(data, data === filled ? [] : filled[0]);
  if (!log) return [];
  const lines = log.isBackwards ? [...data].reverse() : data;
  const said = [
    `The meter’s own log: the readings stand in column ${log.value + 1}, one a line.`,
    ...(log.isBackwards ? ['Its numbers fall, so it is read from its end.'] : []),
  ];
  return [{ rows: lines.map((row) => [readingOf(log, row)]), said }];
}
