import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type Area, rectGiven } from './area';
import { ApiCollection, type ApiHost, ApiObject } from './object';

/** The breaks between printed pages above some rows of a sheet, from the top. */
export class PageBreakCollection extends ApiCollection<PageBreak> {
  readonly typeName = 'PageBreakCollection';
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  all() {
    return this.sheet.page.breaks.map((row) => new PageBreak(this.host, this.sheet, row));
  }
  getItem(index: unknown) {
    return this.getItemAt(index);
  }
  /** A break above the first cell of a range; nothing can break above the first row. */
  add(place: Area | string) {
    const rect = rectGiven(place);
    if (rect.row === 0) throw new ApiError('InvalidArgument');
    const { page } = this.sheet;
    page.breaks = [...new Set([...page.breaks, rect.row])].sort((a, b) => a - b);
    return new PageBreak(this.host, this.sheet, rect.row);
  }
}

class PageBreak extends ApiObject {
  readonly typeName = 'PageBreak';
  override readonly scalars = ['rowIndex'];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    /** First row of the page below, counted from 0. */
    readonly rowIndex: number,
  ) {
    super(host);
  }
  override identity() {
    return { _Id: String(this.rowIndex) };
  }
  delete() {
    const { page } = this.sheet;
    page.breaks = page.breaks.filter((row) => row !== this.rowIndex);
  }
}
