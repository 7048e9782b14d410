import { addressOf, cellName, type Rect, rectOf } from '../sheets/address';

/** About what a range costs in a message that sets one thing on it, in bytes. */
const RANGE = 350;
/** What a cell costs in a matrix that leaves it alone: `null,`. */
const LEFT_ALONE = 5;

/**
 * The parts of an area that hold anything, each without empty edges: cut across or down as long as the empty cells
 * saved cost more than another range.
 */
export function filledAreas(area: string, isFilled: (at: string) => boolean): string[] {
  const whole = rectOf(area);
  const sums = counted(whole, isFilled);
  const filledIn = (rect: Rect) => countIn(sums, whole, rect);
  const cost = (rects: readonly Rect[]) =>
    rects.reduce((sum, one) => sum + RANGE + LEFT_ALONE * (one.rows * one.columns - filledIn(one)), 0);
  const cut = (rect: Rect): Rect[] => {
    const tight = trimmed(rect, filledIn);
    if (!tight) return [];
    let best: Rect[] = [tight];
    for (const halves of cuts(tight)) {
      const parts = halves.flatMap((half) => trimmed(half, filledIn) ?? []);
      if (cost(parts) < cost(best)) best = parts;
    }
    return best.length === 1 ? best : best.flatMap(cut);
  };
  return cut(whole).map(addressOf);
}

/** Every way to cut a rectangle in two, across or down. */
function* cuts({ row, column, rows, columns }: Rect): Generator<[Rect, Rect]> {
  for (let at = 1; at < rows; at++) {
    yield [
      { row, column, rows: at, columns },
      { row: row + at, column, rows: rows - at, columns },
    ];
  }
  for (let at = 1; at < columns; at++) {
    yield [
      { row, column, rows, columns: at },
      { row, column: column + at, rows, columns: columns - at },
    ];
  }
}

function trimmed(rect: Rect, filledIn: (rect: Rect) => number): Rect | undefined {
  if (filledIn(rect) === 0) return undefined;
  let { row, column, rows, columns } = rect;
  const isEmpty = (part: Partial<Rect>) => filledIn({ row, column, rows, columns, ...part }) === 0;
  while (isEmpty({ rows: 1 })) [row, rows] = [row + 1, rows - 1];
  while (isEmpty({ row: row + rows - 1, rows: 1 })) rows--;
  while (isEmpty({ columns: 1 })) [column, columns] = [column + 1, columns - 1];
  while (isEmpty({ column: column + columns - 1, columns: 1 })) columns--;
  return { row, column, rows, columns };
}

/** How many cells are filled above and to the left of each corner. */
function counted({ row, column, rows, columns }: Rect, isFilled: (at: string) => boolean): number[][] {
  const sums = Array.from({ length: rows + 1 }, () => new Array<number>(columns + 1).fill(0));
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const own = isFilled(cellName(row + r, column + c)) ? 1 : 0;
      sums[r + 1]![c + 1] = sums[r]![c + 1]! + sums[r + 1]![c]! - sums[r]![c]! + own;
    }
  }
  return sums;
}

function countIn(sums: readonly number[][], whole: Rect, { row, column, rows, columns }: Rect): number {
  const [top, left] = [row - whole.row, column - whole.column];
  const [bottom, right] = [top + rows, left + columns];
  return sums[bottom]![right]! - sums[top]![right]! - sums[bottom]![left]! + sums[top]![left]!;
}

/** What stands in the cells of an area, row by row. */
export function matrix<T>(area: string, cell: (at: string) => T): T[][] {
  const { row, column, rows, columns } = rectOf(area);
  return Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_, c) => cell(cellName(row + r, column + c))),
  );
}
