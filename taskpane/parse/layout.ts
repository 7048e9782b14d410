import type { GridShape } from '../../src/photometry/reading';
import type { Delimiter } from './delimited';
import type { BlockTarget } from './target';

type Rows = readonly (readonly string[])[];

/** One way a pasted table fills the wanted grids. */
export interface Fit {
  readonly how: readonly string[];
  /** One grid of texts for each target. */
  readonly grids: readonly Rows[];
}

/** The ways a table fits the wanted grids: none or one as it stands, else without separators or headings. */
export function layOut(rows: Rows, delimiter: Delimiter, targets: readonly BlockTarget[]): Fit[] {
  const split = delimiter === 'none' ? [] : [`Cells end at each ${delimiter}.`];
  for (const { rows: kept, said } of [
    { rows, said: [] },
    { rows: withoutBlankLines(rows), said: ['Empty rows and columns between the blocks are left out.'] },
    { rows: withoutHeadings(rows), said: ['The first row holds headings and is left out.'] },
  ]) {
    const found = targets.length === 1 ? single(kept, targets[0]!.shape) : several(kept, targets);
    if (found) return [{ how: [...split, ...said, ...found.how], grids: found.grids }];
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
  const names = targets.map(({ label }) => label).join(', ');
  return `${targets.length} blocks of ${rows} \u00d7 ${columns} (${names}) one below or beside another, ${n} columns with one row a block, ${n} rows with one column a block, or ${n * targets.length} readings in one row or column`;
}

function single(rows: Rows, { rows: high, columns: wide }: GridShape): Fit | undefined {
  const n = high * wide;
  if (has(rows, high, wide))
    return { how: n === 1 ? [] : [`${high} \u00d7 ${wide}, laid out as pasted.`], grids: [rows] };
  if (has(rows, n, 1))
    return {
      how: [`One column of ${n}, read row by row from top left.`],
      grids: [inRows(rows.flat(), wide)],
    };
  if (has(rows, 1, n))
    return { how: [`One row of ${n}, read row by row from top left.`], grids: [inRows(rows.flat(), wide)] };
  return undefined;
}

function several(rows: Rows, targets: readonly BlockTarget[]): Fit | undefined {
  const { rows: high, columns: wide } = targets[0]!.shape;
  const n = high * wide;
  const k = targets.length;
  const order = targets.map(({ label }) => label).join(', ');
  const each = (make: (i: number) => Rows) => targets.map((_, i) => make(i));
  const reading = 'each read row by row from top left';
  if (has(rows, high * k, wide)) {
    return {
      how: [`Blocks one below another: ${order}.`],
      grids: each((i) => rows.slice(i * high, (i + 1) * high)),
    };
  }
  if (has(rows, high, wide * k)) {
    return {
      how: [`Blocks side by side: ${order}.`],
      grids: each((i) => rows.map((row) => row.slice(i * wide, (i + 1) * wide))),
    };
  }
  if (has(rows, k, n))
    return { how: [`One row a block: ${order}; ${reading}.`], grids: each((i) => inRows(rows[i]!, wide)) };
  if (has(rows, n, k)) {
    return {
      how: [`One column a block: ${order}; ${reading}.`],
      grids: each((i) =>
        inRows(
          rows.map((row) => row[i]!),
          wide,
        ),
      ),
    };
  }
  if (has(rows, n * k, 1) || has(rows, 1, n * k)) {
    const flat = rows.flat();
    return {
      how: [`${n * k} in one ${rows.length === 1 ? 'row' : 'column'}: ${order}; ${reading}.`],
      grids: each((i) => inRows(flat.slice(i * n, (i + 1) * n), wide)),
    };
  }
  return undefined;
}

function has(rows: Rows, high: number, wide: number): boolean {
  return rows.length === high && rows.every((row) => row.length === wide);
}

function inRows(flat: readonly string[], wide: number): string[][] {
  return Array.from({ length: Math.ceil(flat.length / wide) }, (_, r) =>
    flat.slice(r * wide, (r + 1) * wide),
  );
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
