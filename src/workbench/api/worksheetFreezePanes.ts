import type { Sheet } from '../engine/sheet';
import { type Area, rectGiven } from './area';
import { type ApiHost, ApiObject } from './object';

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
  freezeAt(range: Area | string) {
    const rect = rectGiven(range);
    this.sheet.freeze(rect.row + rect.rows, rect.column + rect.columns);
  }
}
