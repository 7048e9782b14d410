import type { Sheet } from '../engine/sheet';
import { type ApiHost, ApiObject } from './object';
import { Range } from './range';

export class WorksheetFreezePanes extends ApiObject {
  readonly typeName = 'WorksheetFreezePanes';
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  freezeRows(count = 0) {
    this.sheet.freeze(count, 0);
  }
  freezeColumns(count = 0) {
    this.sheet.freeze(0, count);
  }
  freezeAt(range: Range | string) {
    const { rect } = typeof range === 'string' ? Range.ofAddress(this.host, this.sheet, range) : range;
    this.sheet.freeze(rect.row + rect.rows, rect.column + rect.columns);
  }
  unfreeze() {
    this.sheet.freeze(0, 0);
  }
  getLocationOrNullObject() {
    const { rows, columns } = this.sheet.frozen();
    if (rows === 0 && columns === 0) return null;
    return new Range(this.host, this.sheet, {
      row: 0,
      column: 0,
      rows: Math.max(rows, 1),
      columns: Math.max(columns, 1),
    });
  }
}
