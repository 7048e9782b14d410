import type { ProtectionOptions } from '../engine/rules';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type ApiHost, ApiObject } from './object';

/** What stays allowed unless said otherwise (reference of Excel.WorksheetProtectionOptions). */
const DEFAULTS: ProtectionOptions = {
  allowAutoFilter: false,
  allowDeleteColumns: false,
  allowDeleteRows: false,
  allowEditObjects: false,
  allowEditScenarios: false,
  allowFormatCells: false,
  allowFormatColumns: false,
  allowFormatRows: false,
  allowInsertColumns: false,
  allowInsertHyperlinks: false,
  allowInsertRows: false,
  allowPivotTables: false,
  allowSort: false,
  selectionMode: 'Normal',
};

export class WorksheetProtection extends ApiObject {
  readonly typeName = 'WorksheetProtection';
  override readonly scalars = ['protected', 'options'];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  get protected() {
    return this.sheet.protection !== undefined;
  }
  get options() {
    return this.sheet.protection?.options ?? null;
  }
  /** "Fails if the worksheet has already been protected" (reference of WorksheetProtection.protect). */
  protect(options?: ProtectionOptions | null, password?: string | null) {
    if (this.sheet.protection)
      throw new ApiError('AccessDenied', `The sheet "${this.sheet.name}" is protected already.`);
    this.engine.setProtection(this.sheet, {
      options: { ...DEFAULTS, ...options },
      ...(password ? { password } : {}),
    });
  }
  unprotect(password?: string | null) {
    const { protection } = this.sheet;
    if (!protection) throw new ApiError('AccessDenied', `The sheet "${this.sheet.name}" is not protected.`);
    if ((protection.password ?? '') !== (password ?? ''))
      throw new ApiError('AccessDenied', 'The password is wrong.');
    this.engine.setProtection(this.sheet, undefined);
  }
}
