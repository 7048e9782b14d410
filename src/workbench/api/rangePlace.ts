import type { Rect } from '../../sheets/address';
import { intersection, isInside } from '../engine/reference';
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
  getOffsetRange(rows: number, columns: number) {
    return this.move({ ...this.rect, row: this.rect.row + rows, column: this.rect.column + columns });
  }
  getResizedRange(rows: number, columns: number) {
    return this.move({ ...this.rect, rows: this.rect.rows + rows, columns: this.rect.columns + columns });
  }
  getAbsoluteResizedRange(rows: number, columns: number) {
    return this.move({ ...this.rect, rows, columns });
  }
  /** The client library itself asks for it and for the last cell: it parts large writes, and resizes ranges by them. */
  getBoundingRect(other: Area | string) {
    const [a, b] = [this.rect, rectGiven(other)];
    const [row, column] = [Math.min(a.row, b.row), Math.min(a.column, b.column)];
    const rows = Math.max(a.row + a.rows, b.row + b.rows) - row;
    const columns = Math.max(a.column + a.columns, b.column + b.columns) - column;
    return this.move({ row, column, rows, columns });
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
}
