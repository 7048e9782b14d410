import type { Area } from './area';
import { type ApiHost, ApiObject } from './object';
import { common } from './shape';

export class FormatProtection extends ApiObject {
  readonly typeName = 'FormatProtection';
  override readonly scalars = ['locked'];
  constructor(
    host: ApiHost,
    readonly range: Area,
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
