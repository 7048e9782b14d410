import type { IStyleData } from '@univerjs/core';
import type { Rect } from '../../sheets/address';
import { ApiError } from '../errors';
import { SheetCells } from './cells';
import { Grid } from './grid';
import { rangeOf } from './port';
import { contains, formatAddress, intersection } from './reference';
import { type ConditionalItem, newPage, type PageSetup, type Protection, type ValidationItem } from './rules';

/** One sheet: its cells, and what Excel knows of a sheet beside them: locks, rules, protection, page. */
export class Sheet extends SheetCells {
  readonly unlocked = new Grid<true>();
  readonly notes = new Grid<string>();
  validations: ValidationItem[] = [];
  formats: ConditionalItem[] = [];
  protection: Protection | undefined;
  page: PageSetup = newPage();
  /** Heads and lines that a spreadsheet program would filter; this one only keeps them for the file. */
  filter: Rect | undefined;
  visibility: 'Visible' | 'Hidden' | 'VeryHidden' = 'Visible';
  #isFittingSoon = false;

  /** Number formats included: contents stay. */
  clearStyle(rect: Rect): void {
    this.restyle(rect, () => BARE);
    this.setLocked(rect, true);
  }
  /** Gives cells the looks and locks of others, again and again where there are more of them. */
  copyLooks(from: Sheet, source: Rect, target: Rect): void {
    const models = Array.from({ length: source.rows }, (_, r) =>
      Array.from({ length: source.columns }, (_, c) => ({
        style: { ...BARE, ...from.style(source.row + r, source.column + c) },
        isLocked: from.isLocked(source.row + r, source.column + c),
      })),
    );
    const modelAt = (row: number, column: number) =>
      models[(row - target.row) % source.rows]![(column - target.column) % source.columns]!;
    this.restyle(target, (row, column) => modelAt(row, column).style);
    for (let row = target.row; row < target.row + target.rows; row++)
      for (let column = target.column; column < target.column + target.columns; column++)
        if (this.isLocked(row, column) !== modelAt(row, column).isLocked)
          this.setLocked({ row, column, rows: 1, columns: 1 }, modelAt(row, column).isLocked);
  }
  /**
   * Makes one cell of a rectangle, or of each of its rows; only the first content stays. By the engine's
   * mutations: its command ends later, and what is written meanwhile would be taken for a part of it.
   */
  merge(rect: Rect, across: boolean): void {
    const { row, column, rows, columns } = this.clip(rect);
    this.engine.port.reach(this.id, row + rows - 1, column + columns - 1);
    const areas = across
      ? Array.from({ length: rows }, (_, r) => ({ row: row + r, column, rows: 1, columns }))
      : [{ row, column, rows, columns }];
    for (const area of areas) {
      this.enter(area, (r, c) => {
        const isKept = (r === area.row && c === area.column) || this.isBare(r, c);
        return isKept ? undefined : { kind: 'empty' };
      });
    }
    this.unmerge({ row, column, rows, columns });
    this.engine.port.run('sheet.mutation.add-worksheet-merge', {
      subUnitId: this.id,
      ranges: areas.filter((area) => area.rows * area.columns > 1).map(rangeOf),
    });
  }
  unmerge(rect: Rect): void {
    this.engine.port.run('sheet.mutation.remove-worksheet-merge', {
      subUnitId: this.id,
      ranges: [rangeOf(this.clip(rect))],
    });
  }
  /** Rows above and columns left that do not scroll. */
  freeze(rows: number, columns: number): void {
    this.engine.port.ours(() =>
      rows === 0 && columns === 0
        ? this.shown.cancelFreeze()
        : this.shown.setFreeze({
            startRow: rows || -1,
            startColumn: columns || -1,
            ySplit: rows,
            xSplit: columns,
          }),
    );
  }
  frozen(): { rows: number; columns: number } {
    const { ySplit, xSplit } = this.shown.getFreeze();
    return { rows: ySplit, columns: xSplit };
  }
  setColumnWidth(rect: Rect, pixels: number): void {
    const { column, columns } = this.clip(rect);
    this.engine.port.reach(this.id, 0, column + columns - 1);
    this.engine.port.setColumnWidths(this.id, column, columns, pixels);
    this.#fitRowsSoon(column, pixels);
  }
  /**
   * The engine's command for a width fits the heights of all rows each time; once is enough for all widths that are
   * set together.
   */
  #fitRowsSoon(column: number, pixels: number): void {
    if (this.#isFittingSoon) return;
    this.#isFittingSoon = true;
    queueMicrotask(() => {
      this.#isFittingSoon = false;
      if (!this.engine.port.sheetIds().includes(this.id)) return;
      this.engine.port.ours(() => this.shown.setColumnWidths(column, 1, pixels));
    });
  }
  setRowHeight(rect: Rect, pixels: number): void {
    const { row, rows } = this.clip(rect);
    this.engine.port.reach(this.id, row + rows - 1, 0);
    this.engine.port.ours(() => this.shown.setRowHeightsForced(row, rows, pixels));
  }
  /** Tells whoever listens that contents changed; `before` is known for single cells. */
  changed(rect: Rect, trigger: 'ThisLocalAddin' | 'Unknown', before?: unknown): void {
    const after = before === undefined ? undefined : (this.value(rect.row, rect.column) ?? '');
    this.engine.events.emit({
      kind: 'changed',
      sheet: this.id,
      address: formatAddress(rect),
      changeType: 'RangeEdited',
      trigger,
      ...(before === undefined ? {} : { before, after: typeof after === 'object' ? after.error : after }),
    });
  }

  isLocked(row: number, column: number): boolean {
    return !this.unlocked.get(row, column);
  }
  setLocked(rect: Rect, locked: boolean): void {
    const { row, column, rows, columns } = this.clip(rect);
    for (let r = row; r < row + rows; r++)
      for (let c = column; c < column + columns; c++) this.unlocked.set(r, c, locked ? undefined : true);
  }
  /** Excel's AccessDenied for a write that touches a locked cell of a protected sheet. */
  requireWritable(rect: Rect): void {
    if (!this.protection) return;
    let free = 0;
    for (const { row, column } of this.unlocked.entries()) if (contains(rect, row, column)) free++;
    if (free < rect.rows * rect.columns)
      throw new ApiError('AccessDenied', `The sheet "${this.name}" is protected.`);
  }
  /** The same for changes that Excel allows only where `option` was granted when protecting. */
  requireAllowed(option: string): void {
    if (this.protection && this.protection.options[option] !== true)
      throw new ApiError('AccessDenied', `The sheet "${this.name}" is protected.`);
  }

  merges(): Rect[] {
    return this.shown.getMergedRanges().map((range) => ({
      row: range.getRow(),
      column: range.getColumn(),
      rows: range.getHeight(),
      columns: range.getWidth(),
    }));
  }
  /** The validation of a cell: of overlapping ones the last set. */
  validationAt(row: number, column: number): ValidationItem | undefined {
    return this.validations.filter((item) => contains(item.range, row, column)).at(-1);
  }
  /** The one validation that covers a whole rectangle. */
  validationOf(rect: Rect): ValidationItem | undefined {
    const item = this.validationAt(rect.row, rect.column);
    const shared = item && intersection(item.range, rect);
    return shared && shared.rows === rect.rows && shared.columns === rect.columns ? item : undefined;
  }
  /** Takes conditional formats away from a rectangle; what lies outside keeps them. */
  clearFormats(rect: Rect): void {
    this.formats = this.formats.flatMap((item) =>
      cut(item.range, rect).map((range, index) => ({
        ...item,
        range,
        id: index === 0 ? item.id : this.engine.nextId(),
      })),
    );
  }
  /** Sets one validation for a rectangle; what it covers of others is cut out of them. */
  setValidation(rect: Rect, item: ValidationItem | undefined): void {
    this.validations = this.validations.flatMap((other) => {
      return intersection(other.range, rect)
        ? cut(other.range, rect).map((range) => ({ ...other, range }))
        : [other];
    });
    if (item) this.validations.push(item);
  }
}

/** A look with nothing set. */
const BARE = {
  n: null,
  bg: null,
  cl: null,
  bl: null,
  it: null,
  fs: null,
  ff: null,
  ht: null,
  vt: null,
  tb: null,
  bd: null,
  ul: null,
  st: null,
  pd: null,
} as unknown as IStyleData;

/** What is left of a rectangle when a part is taken out: up to four rectangles. */
function cut(from: Rect, part: Rect): Rect[] {
  const hit = intersection(from, part);
  if (!hit) return [from];
  const pieces: Rect[] = [
    { ...from, rows: hit.row - from.row },
    { ...from, row: hit.row + hit.rows, rows: from.row + from.rows - hit.row - hit.rows },
    { ...hit, column: from.column, columns: hit.column - from.column },
    {
      ...hit,
      column: hit.column + hit.columns,
      columns: from.column + from.columns - hit.column - hit.columns,
    },
  ];
  return pieces.filter(({ rows, columns }) => rows > 0 && columns > 0);
}
