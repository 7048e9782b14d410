import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type Area, rectGiven } from './area';
import { type ApiHost, ApiObject } from './object';
import { Range } from './range';

/** The arrows at the heads of a sheet's table. They are kept for the file; nothing is filtered here. */
export class AutoFilter extends ApiObject {
  readonly typeName = 'AutoFilter';
  override readonly scalars = ['enabled'];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  get enabled() {
    return this.sheet.filter !== undefined;
  }
  getRangeOrNullObject() {
    return this.sheet.filter ? new Range(this.host, this.sheet, this.sheet.filter) : null;
  }
  apply(range: Area | string, column?: number | null) {
    if (column !== undefined && column !== null)
      throw new ApiError('ApiNotAvailable', 'The workbench shows every line of a table.');
    this.#requireOpen();
    const rect = rectGiven(range);
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
}
