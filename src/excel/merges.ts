import { addressOf, type Rect, rectOf } from '../sheets/address';
import type { Plan } from '../sheets/plan';
import type { Ranges } from './ranges';

/**
 * Merges cells, those of rows that lie below each other in one go. Comes after the contents: the host copies no
 * formula onto cells that are merged in another way than those it comes from.
 */
export function writeMerges(ranges: Ranges, { merges }: Plan): void {
  for (const { range, across } of stacked(merges)) ranges.at(range).merge(across);
}

function stacked(merges: readonly string[]): { range: string; across: boolean }[] {
  const open = new Map<string, Rect>();
  const done: Rect[] = [];
  const rects = merges.map(rectOf);
  for (const merge of rects.filter(({ rows }) => rows === 1).sort((a, b) => a.row - b.row)) {
    const key = `${merge.column} ${merge.columns}`;
    const above = open.get(key);
    const isNext = above && above.row + above.rows === merge.row;
    if (above && !isNext) done.push(above);
    open.set(key, isNext ? { ...above, rows: above.rows + 1 } : merge);
  }
  return [
    ...[...done, ...open.values()].map((rect) => ({ range: addressOf(rect), across: rect.rows > 1 })),
    ...rects.filter(({ rows }) => rows > 1).map((rect) => ({ range: addressOf(rect), across: false })),
  ];
}
