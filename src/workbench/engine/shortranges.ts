import type { CELL_INVERTED_INDEX_CACHE } from '@univerjs/preset-sheets-core';

/** What the engine keeps of columns it has compared. */
type ComparedColumns = typeof CELL_INVERTED_INDEX_CACHE;

/** Ranges of fewer rows than this are compared cell by cell. */
const SHORT = 64;

/** Every workbook of a process shares the engine's columns. */
const known = new WeakSet<ComparedColumns>();

/**
 * The engine answers a comparison it has made before out of an index over the whole column, and goes through all of
 * that index to do so. For one row of a table of thousands that is far more work than comparing: a table whose rows
 * compare their own cells would take time with the square of its length. So short ranges do without the index.
 */
export function compareShortRangesDirectly(columns: ComparedColumns): void {
  if (known.has(columns)) return;
  known.add(columns);
  const ask = columns.canUseCache.bind(columns);
  columns.canUseCache = (unit, sheet, column, first, last) =>
    last - first + 1 < SHORT
      ? { rowsInCache: [], rowsNotInCache: [] }
      : ask(unit, sheet, column, first, last);
}
