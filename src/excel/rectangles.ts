import { addressOf, cellName, cellsOf, type Rect, rectOf } from '../sheets/address';

/**
 * Covers cells with few rectangles of one key each, so that what they have in common is set once a rectangle and not
 * once a cell. Each begins at the first cell that is left and takes the width that covers most.
 *
 * @param isFree whether a row may be covered by any rectangle, since something is put over it later
 */
export function rectangles(
  cells: ReadonlyMap<string, string>,
  isFree: (row: number) => boolean = () => false,
): { key: string; range: string }[] {
  const left = new Set(cells.keys());
  const found: { key: string; range: string }[] = [];
  for (const { at, row, column } of inOrder(cells.keys())) {
    if (!left.has(at)) continue;
    const key = cells.get(at)!;
    const rect = widest(row, column, {
      takes: (r, c) => isFree(r) || cells.get(cellName(r, c)) === key,
      counts: (r, c) => !isFree(r) && left.has(cellName(r, c)),
    });
    for (const covered of cellsOf(addressOf(rect))) left.delete(covered);
    found.push({ key, range: addressOf(rect) });
  }
  return found;
}

function inOrder(cells: Iterable<string>): { at: string; row: number; column: number }[] {
  return [...cells].map((at) => ({ at, ...rectOf(at) })).sort((a, b) => a.row - b.row || a.column - b.column);
}

interface Ground {
  /** Whether a rectangle may hold a cell. */
  readonly takes: (row: number, column: number) => boolean;
  /** Whether it is one that is left to be covered; only asked for cells that are taken. */
  readonly counts: (row: number, column: number) => boolean;
}

function widest(row: number, column: number, { takes, counts }: Ground): Rect {
  let best: Rect = { row, column, rows: 1, columns: 1 };
  let most = 0;
  /** Cells of each row that are covered so far; as many rows as all columns up to here take. */
  let covered: number[] | undefined;
  for (let c = column; takes(row, c); c++) {
    const rows: number[] = [];
    for (let r = row; (covered === undefined || r - row < covered.length) && takes(r, c); r++)
      rows.push((covered?.[r - row] ?? 0) + (counts(r, c) ? 1 : 0));
    covered = rows;
    const count = rows.reduce((sum, own) => sum + own, 0);
    if (count <= most) continue;
    most = count;
    best = {
      row,
      column,
      rows: rows.reduce((last, own, i) => (own > 0 ? i + 1 : last), 1),
      columns: c - column + 1,
    };
  }
  return best;
}
