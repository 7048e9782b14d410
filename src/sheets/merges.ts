import { cellsOf } from './address';

/** Cells of merged ranges but the first of each: only that one shows. */
export function hiddenIn(merges: readonly string[]): Set<string> {
  return new Set(merges.flatMap((range) => cellsOf(range).slice(1)));
}
