import { EVENT, WHOLE_WORKBOOK } from '../bridge/notices';
import { ApiError } from '../errors';
import { withEvents } from './events';
import { ApiCollection } from './object';
import { Worksheet } from './worksheet';

export class WorksheetCollection extends ApiCollection<Worksheet> {
  readonly typeName = 'WorksheetCollection';

  all() {
    return this.engine.sheets().map((sheet) => new Worksheet(this.host, sheet));
  }
  override getCount(visibleOnly?: boolean): number {
    return this.engine.sheets().filter((sheet) => !visibleOnly || sheet.visibility === 'Visible').length;
  }
  add(name?: string | null) {
    if (name === '') throw new ApiError('InvalidArgument');
    return new Worksheet(this.host, this.engine.addSheet(name ?? undefined));
  }
  getItem(key: unknown) {
    return new Worksheet(this.host, this.engine.requireSheet(String(key)));
  }
  getActiveWorksheet() {
    return new Worksheet(this.host, this.engine.activeSheet);
  }
}
withEvents(WorksheetCollection.prototype, () => WHOLE_WORKBOOK, {
  Added: EVENT.added,
  Deleted: EVENT.deleted,
  EventNameChanged: EVENT.renamed,
});
