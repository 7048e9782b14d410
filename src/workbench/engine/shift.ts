import type { Rect } from '../../sheets/address';
import type { Sheet } from './sheet';

type Change = 'RowInserted' | 'RowDeleted' | 'ColumnInserted' | 'ColumnDeleted';

/** Moves what is kept beside the cells along with rows or columns that come and go, as Excel does. */
export function shiftSheet(sheet: Sheet, change: Change, at: Rect): void {
  const isRow = change.startsWith('Row');
  const start = isRow ? at.row : at.column;
  const count = (isRow ? at.rows : at.columns) * (change.endsWith('Inserted') ? 1 : -1);
  const point = (row: number, column: number): readonly [number, number] | undefined => {
    const moved = shiftIndex(isRow ? row : column, start, count);
    if (moved === undefined) return undefined;
    return isRow ? [moved, column] : [row, moved];
  };
  sheet.unlocked.rearrange(point);
  sheet.notes.rearrange(point);
  const rect = (from: Rect) => shiftRect(from, isRow, start, count);
  const keep = <T extends { range: Rect }>(items: readonly T[]): T[] =>
    items.flatMap((item) => {
      const range = rect(item.range);
      return range ? [Object.assign(item, { range })] : [];
    });
  sheet.validations = keep(sheet.validations);
  sheet.formats = keep(sheet.formats);
  if (sheet.page.area) sheet.page.area = rect(sheet.page.area);
  const breaks = isRow ? 'breaks' : 'columnBreaks';
  sheet.page[breaks] = sheet.page[breaks].flatMap((each) => shiftIndex(each, start, count) ?? []);
}

/** A row or column number after `count` were put in (or, negative, taken out) at `start`. */
function shiftIndex(index: number, start: number, count: number): number | undefined {
  if (index < start) return index;
  if (count < 0 && index < start - count) return undefined;
  return index + count;
}

function shiftRect(rect: Rect, isRow: boolean, start: number, count: number): Rect | undefined {
  const first = isRow ? rect.row : rect.column;
  const size = isRow ? rect.rows : rect.columns;
  const kept: number[] = [];
  for (const edge of [first, first + size - 1]) {
    const moved = shiftIndex(edge, start, count);
    kept.push(moved ?? (edge === first ? start : start - 1));
  }
  const [low, high] = [kept[0]!, kept[1]!];
  if (high < low) return undefined;
  return isRow
    ? { ...rect, row: low, rows: high - low + 1 }
    : { ...rect, column: low, columns: high - low + 1 };
}
