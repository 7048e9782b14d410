import type { ICellData, IStyleData } from '@univerjs/core';
import type { Rect } from '../../sheets/address';
import type { CellValue } from '../../sheets/book';
import { ApiError } from '../errors';
import type { Engine } from './engine';
import { Grid } from './grid';
import { cellOf, type Entry, isErrorKind, TYPE } from './input';
import type { CellTable } from './port';
import { contains, formatAddress, intersection, sheetPrefix } from './reference';
import { type ConditionalItem, newPage, type PageSetup, type Protection, type ValidationItem } from './rules';
import { cellText } from './text';

/** One sheet: its cells live in the embedded engine, the rest of what Excel knows of a sheet lives here. */
export class Sheet {
  readonly unlocked = new Grid<true>();
  readonly notes = new Grid<string>();
  validations: ValidationItem[] = [];
  formats: ConditionalItem[] = [];
  protection: Protection | undefined;
  page: PageSetup = newPage();
  visibility: 'Visible' | 'Hidden' | 'VeryHidden' = 'Visible';

  /** Looks that wait to be written in one go, while `together` runs. */
  #looks: Map<string, { row: number; column: number; style: IStyleData }> | undefined;

  constructor(
    readonly engine: Engine,
    readonly id: string,
  ) {}

  get shown() {
    return this.engine.port.sheet(this.id);
  }
  get name(): string {
    return this.engine.port.sheetName(this.id);
  }
  get position(): number {
    return this.engine.port.sheetIds().indexOf(this.id);
  }
  /** `'Run 1'!B2:D4`. */
  address(rect: Rect): string {
    return sheetPrefix(this.name) + formatAddress(rect);
  }

  /** The cell as the engine stores it, with what an array result spills into it. */
  cell(row: number, column: number): ICellData | undefined {
    const cell = this.engine.port.cell(this.id, row, column);
    if (cell && (cell.f || cell.p || (cell.v !== undefined && cell.v !== null))) return cell;
    return this.isSpilled(row, column) ? this.engine.port.spilled(this.id, row, column) : cell;
  }
  /** True for the cells an array result fills beside its own. */
  isSpilled(row: number, column: number): boolean {
    for (const rect of this.engine.port.spills(this.id))
      if (contains(rect, row, column) && (rect.row !== row || rect.column !== column)) return true;
    return false;
  }
  value(row: number, column: number): CellValue {
    const cell = this.cell(row, column);
    if (cell?.p) return cell.p.body?.dataStream.replace(/\r\n$/, '') ?? '';
    if (!cell || cell.v === undefined || cell.v === null || cell.v === '') return null;
    if (cell.t === TYPE.boolean) return Boolean(cell.v);
    if (typeof cell.v === 'string' && isErrorKind(cell.v) && cell.t !== TYPE.forcedText) {
      const message = this.engine.errorMessage(this.id, row, column);
      return { error: cell.v, ...(message === undefined ? {} : { message }) };
    }
    return cell.t === TYPE.number && typeof cell.v === 'string' ? Number(cell.v) : (cell.v as CellValue);
  }
  /** As it was typed, with the names of the workbook; undefined for a cell without one. */
  formula(row: number, column: number): string | undefined {
    const formula = this.engine.port.cell(this.id, row, column)?.f;
    return formula ? this.engine.decode(formula, this.id) : undefined;
  }
  style(row: number, column: number): IStyleData {
    const style = this.engine.port.style(this.engine.port.cell(this.id, row, column));
    const waiting = this.#looks?.get(`${row},${column}`);
    return waiting ? { ...style, ...waiting.style } : style;
  }
  numberFormat(row: number, column: number): string {
    return this.style(row, column).n?.pattern ?? 'General';
  }

  /** Gives cells of a rectangle new contents; `undefined` leaves one alone. Asks no permission. */
  enter(rect: Rect, entryAt: (row: number, column: number) => Entry | undefined): void {
    const table: CellTable = {};
    for (let row = rect.row; row < rect.row + rect.rows; row++) {
      for (let column = rect.column; column < rect.column + rect.columns; column++) {
        const entry = entryAt(row, column);
        if (!entry) continue;
        const cell = cellOf(entry, (formula) => this.engine.encode(formula, this.id));
        const format = entry.kind === 'value' ? entry.format : undefined;
        if (format && this.numberFormat(row, column) === 'General') cell.s = { n: { pattern: format } };
        const line = table[row] ?? {};
        line[column] = cell;
        table[row] = line;
        this.engine.forgetMessage(this.id, row, column);
      }
    }
    if (Object.keys(table).length === 0) return;
    this.engine.port.reach(this.id, rect.row + rect.rows - 1, rect.column + rect.columns - 1);
    this.engine.port.write(this.id, table);
  }

  /** Changes the look of a rectangle; `null` in a style takes a property away. */
  restyle(rect: Rect, styleAt: (row: number, column: number) => IStyleData): void {
    const area = this.clip(rect);
    this.engine.port.reach(this.id, area.row + area.rows - 1, area.column + area.columns - 1);
    this.together(() => {
      for (let row = area.row; row < area.row + area.rows; row++) {
        for (let column = area.column; column < area.column + area.columns; column++) {
          const key = `${row},${column}`;
          const before = this.#looks!.get(key)?.style;
          this.#looks!.set(key, { row, column, style: { ...before, ...styleAt(row, column) } });
        }
      }
    });
  }
  /** Changes of looks made while `work` runs are written as one. */
  together(work: () => void): void {
    if (this.#looks) {
      work();
      return;
    }
    this.#looks = new Map();
    try {
      work();
      const table: CellTable = {};
      for (const { row, column, style } of this.#looks.values()) {
        const line = table[row] ?? {};
        line[column] = { s: style };
        table[row] = line;
      }
      if (this.#looks.size > 0) this.engine.port.writeStyle(this.id, table);
    } finally {
      this.#looks = undefined;
    }
  }
  /** A whole row or column → the part of it that is shown; anything else stays as it is. */
  clip(rect: Rect): Rect {
    const shown = this.shown;
    const rows = rect.rows > 10_000 ? Math.min(rect.rows, shown.getMaxRows() - rect.row) : rect.rows;
    const columns =
      rect.columns > 1_000 ? Math.min(rect.columns, shown.getMaxColumns() - rect.column) : rect.columns;
    return { ...rect, rows: Math.max(rows, 1), columns: Math.max(columns, 1) };
  }

  /** Number formats included: contents stay. */
  clearStyle(rect: Rect): void {
    const bare = {
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
    };
    this.restyle(rect, () => bare as unknown as IStyleData);
    this.setLocked(rect, true);
  }
  merge(rect: Rect, across: boolean): void {
    const { row, column, rows, columns } = this.clip(rect);
    this.engine.port.reach(this.id, row + rows - 1, column + columns - 1);
    const range = this.shown.getRange(row, column, rows, columns);
    this.engine.port.ours(() =>
      across ? range.mergeAcross({ isForceMerge: true }) : range.merge({ isForceMerge: true }),
    );
  }
  unmerge(rect: Rect): void {
    const { row, column, rows, columns } = this.clip(rect);
    this.engine.port.ours(() => this.shown.getRange(row, column, rows, columns).breakApart());
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
    this.engine.port.ours(() => this.shown.setColumnWidths(column, columns, pixels));
  }
  setRowHeight(rect: Rect, pixels: number): void {
    const { row, rows } = this.clip(rect);
    this.engine.port.reach(this.id, row + rows - 1, 0);
    this.engine.port.ours(() => this.shown.setRowHeightsForced(row, rows, pixels));
  }
  /** An estimate from the number of characters: without a screen there is no font to measure. */
  fitColumns(rect: Rect): void {
    const { column, columns } = this.clip(rect);
    const used = this.used(true);
    for (let c = column; c < column + columns; c++) {
      let longest = 0;
      for (let r = used?.row ?? 0; used && r < used.row + used.rows; r++)
        longest = Math.max(longest, cellText(this.value(r, c), this.numberFormat(r, c)).length);
      if (longest > 0) this.setColumnWidth({ row: 0, column: c, rows: 1, columns: 1 }, longest * 7 + 12);
    }
  }
  fitRows(rect: Rect): void {
    const { row, rows } = this.clip(rect);
    this.engine.port.ours(() => this.shown.setRowAutoHeight(row, rows));
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

  /** The smallest rectangle around everything; undefined on an empty sheet. Looks count unless `valuesOnly`. */
  used(valuesOnly: boolean): Rect | undefined {
    let [top, left, bottom, right] = [Infinity, Infinity, -1, -1];
    const grow = (row: number, column: number) => {
      [top, left, bottom, right] = [
        Math.min(top, row),
        Math.min(left, column),
        Math.max(bottom, row),
        Math.max(right, column),
      ];
    };
    for (const { row, column, cell } of this.engine.port.cells(this.id)) {
      const hasValue =
        cell.f || cell.si || cell.p || (cell.v !== undefined && cell.v !== null && cell.v !== '');
      if (hasValue || (!valuesOnly && cell.s)) grow(row, column);
    }
    for (const spill of this.engine.port.spills(this.id)) {
      grow(spill.row, spill.column);
      grow(spill.row + spill.rows - 1, spill.column + spill.columns - 1);
    }
    return bottom < 0
      ? undefined
      : { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
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

/** What is left of a rectangle when a part is taken out: up to four rectangles. */
export function cut(from: Rect, part: Rect): Rect[] {
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
