import { addressOf, rectOf } from '../sheets/address';

/**
 * Groups cells with the same key into few rectangles, so that a style is set once a rectangle and not once a
 * cell: runs along rows first, then equal runs of following rows joined.
 */
export function rectangles(cells: ReadonlyMap<string, string>): { key: string; range: string }[] {
  const byRow = new Map<number, Map<number, string>>();
  for (const [at, key] of cells) {
    const { row, column } = rectOf(at);
    const columns = byRow.get(row) ?? new Map<number, string>();
    byRow.set(row, columns.set(column, key));
  }
  const open = new Map<string, Block>();
  const done: Block[] = [];
  for (const row of [...byRow.keys()].sort((a, b) => a - b)) {
    const runs = runsOf(byRow.get(row)!, row);
    for (const [id, block] of open) {
      if (block.row + block.rows !== row || !runs.has(id)) {
        done.push(block);
        open.delete(id);
      }
    }
    for (const [id, run] of runs) {
      const above = open.get(id);
      if (above) above.rows += 1;
      else open.set(id, run);
    }
  }
  return [...done, ...open.values()].map(({ key, ...rect }) => ({ key, range: addressOf(rect) }));
}

interface Block {
  row: number;
  column: number;
  rows: number;
  columns: number;
  key: string;
}

/** Neighbours with one key in one row, by "first column, length, key". */
function runsOf(columns: ReadonlyMap<number, string>, row: number): Map<string, Block> {
  const runs = new Map<string, Block>();
  const sorted = [...columns.keys()].sort((a, b) => a - b);
  let run: Block | undefined;
  const close = () => {
    if (run) runs.set(`${run.column} ${run.columns} ${run.key}`, run);
  };
  for (const column of sorted) {
    const key = columns.get(column)!;
    if (run && run.key === key && run.column + run.columns === column) {
      run.columns += 1;
      continue;
    }
    close();
    run = { row, column, rows: 1, columns: 1, key };
  }
  close();
  return runs;
}
