import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type ApiHost, ApiObject } from './object';
import { Range } from './range';

/** The arrows at the heads of a sheet's table. They are kept for the file; nothing is filtered here. */
export class AutoFilter extends ApiObject {
  readonly typeName = 'AutoFilter';
  override readonly scalars = ['enabled', 'isDataFiltered'];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  get enabled() {
    return this.sheet.filter !== undefined;
  }
  get isDataFiltered() {
    return false;
  }
  apply(range: Range | string, column?: number | null) {
    if (column !== undefined && column !== null)
      throw new ApiError('ApiNotAvailable', 'The workbench shows every line of a table.');
    this.#requireOpen();
    const { rect } = typeof range === 'string' ? Range.ofAddress(this.host, this.sheet, range) : range;
    this.sheet.filter = rect;
  }
  remove() {
    this.#requireOpen();
    this.sheet.filter = undefined;
  }
  /** Allowed or not, arrows themselves come and go on an open sheet only. */
  #requireOpen() {
    if (this.sheet.protection)
      throw new ApiError('AccessDenied', `The sheet "${this.sheet.name}" is protected.`);
  }
  getRangeOrNullObject() {
    const { filter } = this.sheet;
    return filter ? new Range(this.host, this.sheet, filter) : null;
  }
}
