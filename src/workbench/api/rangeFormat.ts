import type { IStyleData } from '@univerjs/core';
import { ApiError } from '../errors';
import type { Area } from './area';
import { FormatProtection } from './formatProtection';
import { type ApiHost, ApiObject } from './object';
import { RangeBorderCollection } from './rangeBorderCollection';
import { RangeFill } from './rangeFill';
import { RangeFont } from './rangeFont';
import { common } from './shape';
import { getStyle, setStyle } from './style';

/** Codes of the engine (`HorizontalAlign`, `VerticalAlign`, `WrapStrategy` of @univerjs/core). */
const HORIZONTAL: Readonly<Record<string, number>> = {
  General: 0,
  Left: 1,
  Center: 2,
  Right: 3,
  Justify: 4,
  Distributed: 6,
};
const VERTICAL: Readonly<Record<string, number>> = { Top: 1, Center: 2, Bottom: 3 };
const OVERFLOW = 1;
const WRAP = 3;
/** Points of 1/72 in, pixels of 1/96 in. */
const POINTS_PER_PIXEL = 0.75;

export class RangeFormat extends ApiObject {
  readonly typeName = 'RangeFormat';
  override readonly scalars = [
    'columnWidth',
    'horizontalAlignment',
    'rowHeight',
    'verticalAlignment',
    'wrapText',
  ];
  constructor(
    host: ApiHost,
    readonly range: Area,
  ) {
    super(host);
  }
  get fill() {
    return new RangeFill(this.host, this.range);
  }
  get font() {
    return new RangeFont(this.host, this.range);
  }
  get borders() {
    return new RangeBorderCollection(this.host, this.range);
  }
  get protection() {
    return new FormatProtection(this.host, this.range);
  }

  get horizontalAlignment(): string | null {
    return this.#get((style) => nameOf(HORIZONTAL, style.ht ?? 0, 'General'));
  }
  set horizontalAlignment(name: string) {
    const code = HORIZONTAL[name];
    if (code === undefined) throw new ApiError('InvalidArgument');
    setStyle(this.range, { ht: code || null } as IStyleData);
  }
  get verticalAlignment(): string | null {
    return this.#get((style) => nameOf(VERTICAL, style.vt ?? 3, 'Bottom'));
  }
  set verticalAlignment(name: string) {
    const code = VERTICAL[name];
    if (code === undefined) throw new ApiError('InvalidArgument');
    setStyle(this.range, { vt: code } as IStyleData);
  }
  get wrapText(): boolean | null {
    return this.#get((style) => style.tb === WRAP);
  }
  set wrapText(wrap: boolean) {
    setStyle(this.range, { tb: wrap ? WRAP : OVERFLOW } as IStyleData);
  }

  /** In points, as the API counts widths. */
  get columnWidth(): number | null {
    const { sheet, rect } = this.range;
    return common(
      { ...sheet.clip(rect), row: 0, rows: 1 },
      (_, column) => sheet.shown.getColumnWidth(column) * POINTS_PER_PIXEL,
    );
  }
  set columnWidth(points: number) {
    if (!(points >= 0)) throw new ApiError('InvalidArgument');
    this.range.sheet.requireAllowed('allowFormatColumns');
    this.range.sheet.setColumnWidth(this.range.rect, points / POINTS_PER_PIXEL);
  }
  get rowHeight(): number | null {
    const { sheet, rect } = this.range;
    return common(
      { ...sheet.clip(rect), column: 0, columns: 1 },
      (row) => sheet.shown.getRowHeight(row) * POINTS_PER_PIXEL,
    );
  }
  set rowHeight(points: number) {
    // Excel: 0 to 409 points ("Excel specifications and limits").
    if (!(points >= 0 && points <= 409)) throw new ApiError('InvalidArgument');
    this.range.sheet.requireAllowed('allowFormatRows');
    this.range.sheet.setRowHeight(this.range.rect, points / POINTS_PER_PIXEL);
  }
  #get<T>(get: (style: IStyleData) => T): T | null {
    return getStyle(this.range, get);
  }
}

function nameOf(codes: Readonly<Record<string, number>>, code: unknown, otherwise: string): string {
  return Object.keys(codes).find((name) => codes[name] === code) ?? otherwise;
}
