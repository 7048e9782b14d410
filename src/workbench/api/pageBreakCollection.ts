import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type Area, rectGiven } from './area';
import { ApiCollection, type ApiHost, ApiObject } from './object';

/** Above rows, or at the left of columns. */
type Direction = 'breaks' | 'columnBreaks';

/** The breaks between printed pages above some rows of a sheet, or at the left of some columns, in their order. */
export class PageBreakCollection extends ApiCollection<PageBreak> {
  readonly typeName = 'PageBreakCollection';
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    readonly direction: Direction,
  ) {
    super(host);
  }
  all() {
    return this.sheet.page[this.direction].map((at) => this.#breakAt(at));
  }
  getItem(index: unknown) {
    return this.getItemAt(index);
  }
  /** A break above the first cell of a range, or at its left; nothing can break before the first row or column. */
  add(place: Area | string) {
    const { row, column } = rectGiven(place);
    const at = this.direction === 'breaks' ? row : column;
    if (at === 0) throw new ApiError('InvalidArgument');
    const { page } = this.sheet;
    page[this.direction] = [...new Set([...page[this.direction], at])].sort((a, b) => a - b);
    return this.#breakAt(at);
  }
  #breakAt(at: number) {
    return new PageBreak(this.host, this.sheet, this.direction, at);
  }
}

class PageBreak extends ApiObject {
  readonly typeName = 'PageBreak';
  override readonly scalars = ['columnIndex', 'rowIndex'];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    readonly direction: Direction,
    /** First row or column of the page that begins, counted from 0. */
    readonly at: number,
  ) {
    super(host);
  }
  get rowIndex() {
    return this.direction === 'breaks' ? this.at : 0;
  }
  get columnIndex() {
    return this.direction === 'columnBreaks' ? this.at : 0;
  }
  override identity() {
    return { _Id: String(this.at) };
  }
  delete() {
    const { page } = this.sheet;
    page[this.direction] = page[this.direction].filter((each) => each !== this.at);
  }
}
