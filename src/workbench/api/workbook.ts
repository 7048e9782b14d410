import { parseAddress } from '../engine/reference';
import { ApiError } from '../errors';
import { Application } from './application';
import { NamedItemCollection } from './namedItemCollection';
import { ApiObject, orNull } from './object';
import { Range } from './range';
import { Runtime } from './runtime';
import { SettingCollection } from './settingCollection';
import { WorksheetCollection } from './worksheetCollection';

export class Workbook extends ApiObject {
  readonly typeName = 'Workbook';
  override readonly scalars = ['name', 'readOnly'];

  get name() {
    return this.engine.port.workbook.getName();
  }
  get readOnly() {
    return false;
  }
  get application() {
    return new Application(this.host);
  }
  get worksheets() {
    return new WorksheetCollection(this.host);
  }
  get names() {
    return new NamedItemCollection(this.host, undefined);
  }
  get settings() {
    return new SettingCollection(this.host);
  }
  get _Runtime() {
    return new Runtime(this.host);
  }
  getSelectedRange() {
    const sheet = this.engine.activeSheet;
    const selected = this.engine.port.workbook.getActiveRange();
    const rect = selected
      ? {
          row: selected.getRow(),
          column: selected.getColumn(),
          rows: selected.getHeight(),
          columns: selected.getWidth(),
        }
      : { row: 0, column: 0, rows: 1, columns: 1 };
    return new Range(this.host, sheet, rect);
  }
  getActiveCell() {
    const cell = this.engine.port.workbook.getActiveCell();
    const rect = { row: cell?.getRow() ?? 0, column: cell?.getColumn() ?? 0, rows: 1, columns: 1 };
    return new Range(this.host, this.engine.activeSheet, rect);
  }
  /** The range of an event: `getRange(context)` of its arguments asks with what the event carried. */
  _GetRangeForEventByReferenceId(reference: string) {
    const [id = '', address = ''] = reference.split(' ');
    const sheet = this.engine.sheetById(id);
    const rect = parseAddress(address);
    if (!sheet || !rect) throw new ApiError('ItemNotFound');
    return new Range(this.host, sheet, rect);
  }
  _GetRangeOrNullObjectForEventByReferenceId(reference: string) {
    return orNull(() => this._GetRangeForEventByReferenceId(reference));
  }
}
