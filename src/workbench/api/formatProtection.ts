import { type ApiHost, ApiObject } from './object';
import type { Range } from './range';
import { common } from './shape';

export class FormatProtection extends ApiObject {
  readonly typeName = 'FormatProtection';
  override readonly scalars = ['locked'];
  constructor(
    host: ApiHost,
    readonly range: Range,
  ) {
    super(host);
  }
  get locked(): boolean | null {
    const { sheet, rect } = this.range;
    return common(sheet.clip(rect), (row, column) => sheet.isLocked(row, column));
  }
  set locked(locked: boolean) {
    this.range.sheet.requireAllowed('allowFormatCells');
    this.range.sheet.setLocked(this.range.rect, locked);
  }
}
