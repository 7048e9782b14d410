import type { Rect } from '../../sheets/address';
import { intersection, isInside, SHEET_COLUMNS, SHEET_ROWS } from '../engine/reference';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type Area, rectGiven } from './area';
import { type ApiHost, ApiObject, orNull } from './object';

/** Where a range lies, and the ranges that lie around it. */
export abstract class RangePlace<Range extends ApiObject> extends ApiObject {
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    readonly rect: Rect,
  ) {
    super(host);
  }
  /** Another range of the same sheet. */
  protected abstract at(rect: Rect): Range;

  get address() {
    return this.alive.address(this.rect);
  }
  get addressLocal() {
    return this.address;
  }
  get cellCount() {
    const count = this.rect.rows * this.rect.columns;
    return count > 2 ** 31 - 1 ? -1 : count;
  }
  get rowIndex() {
    return this.rect.row;
  }
  get columnIndex() {
    return this.rect.column;
  }
  get rowCount() {
    return this.rect.rows;
  }
  get columnCount() {
    return this.rect.columns;
  }
  get isEntireColumn() {
    return this.rect.rows === SHEET_ROWS;
  }
  get isEntireRow() {
    return this.rect.columns === SHEET_COLUMNS;
  }

  getCell(row: number, column: number) {
    return this.move({ row: this.rect.row + row, column: this.rect.column + column, rows: 1, columns: 1 });
  }
  getRow(row: number) {
    return this.move({ ...this.rect, row: this.rect.row + row, rows: 1 });
  }
  getColumn(column: number) {
    return this.move({ ...this.rect, column: this.rect.column + column, columns: 1 });
  }
  getLastCell() {
    return this.getCell(this.rect.rows - 1, this.rect.columns - 1);
  }
  getLastRow() {
    return this.getRow(this.rect.rows - 1);
  }
  getLastColumn() {
    return this.getColumn(this.rect.columns - 1);
  }
  getOffsetRange(rows: number, columns: number) {
    return this.move({ ...this.rect, row: this.rect.row + rows, column: this.rect.column + columns });
  }
  getResizedRange(rows: number, columns: number) {
    return this.move({ ...this.rect, rows: this.rect.rows + rows, columns: this.rect.columns + columns });
  }
  getAbsoluteResizedRange(rows: number, columns: number) {
    return this.move({ ...this.rect, rows, columns });
  }
  getEntireRow() {
    return this.move({ ...this.rect, column: 0, columns: SHEET_COLUMNS });
  }
  getEntireColumn() {
    return this.move({ ...this.rect, row: 0, rows: SHEET_ROWS });
  }
  getIntersection(other: Area | string) {
    const rect = this.otherRect(other);
    const shared = rect && intersection(this.rect, rect);
    if (!shared) throw new ApiError('ItemNotFound', 'The ranges do not intersect.');
    return this.move(shared);
  }
  getIntersectionOrNullObject(other: Area | string) {
    return orNull(() => this.getIntersection(other));
  }
  getBoundingRect(other: Area | string) {
    const b = this.otherRect(other);
    if (!b) throw new ApiError('InvalidArgument');
    const a = this.rect;
    const [row, column] = [Math.min(a.row, b.row), Math.min(a.column, b.column)];
    const rows = Math.max(a.row + a.rows, b.row + b.rows) - row;
    return this.move({
      row,
      column,
      rows,
      columns: Math.max(a.column + a.columns, b.column + b.columns) - column,
    });
  }
  getUsedRange(valuesOnly?: boolean) {
    const used = this.getUsedRangeOrNullObject(valuesOnly);
    if (!used) throw new ApiError('ItemNotFound');
    return used;
  }
  getUsedRangeOrNullObject(valuesOnly?: boolean) {
    const used = this.alive.used(valuesOnly === true);
    const shared = used && intersection(used, this.rect);
    return shared ? this.move(shared) : null;
  }
  getSpillingToRange() {
    const spill = this.engine.port.spill(this.sheet.id, this.rect.row, this.rect.column);
    if (!spill) throw new ApiError('ItemNotFound');
    return this.move(spill);
  }
  getSpillingToRangeOrNullObject() {
    return orNull(() => this.getSpillingToRange());
  }

  protected get alive(): Sheet {
    if (!this.engine.sheetById(this.sheet.id)) throw new ApiError('ItemNotFound', 'The sheet was deleted.');
    return this.sheet;
  }
  protected move(rect: Rect): Range {
    if (!isInside(rect)) throw new ApiError('InvalidArgument', 'The range would lie outside the sheet.');
    return this.at(rect);
  }
  protected otherRect(other: Area | string): Rect | undefined {
    return typeof other === 'string' || other.sheet === this.sheet ? rectGiven(other) : undefined;
  }
}
