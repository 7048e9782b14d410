import type { IStyleData } from '@univerjs/core';
import { colour } from '../engine/styles';
import { type ApiHost, ApiObject } from './object';
import type { Range } from './range';
import { getStyle, setStyle } from './rangeFormat';

export class RangeFill extends ApiObject {
  readonly typeName = 'RangeFill';
  override readonly scalars = ['color'];
  constructor(
    host: ApiHost,
    readonly range: Range,
  ) {
    super(host);
  }
  /** No fill reads as white, as in Excel. */
  get color(): string | null {
    return getStyle(this.range, (style) => (style.bg?.rgb ? colour(style.bg.rgb) : '#FFFFFF'));
  }
  set color(value: string) {
    setStyle(this.range, { bg: value ? { rgb: colour(value) } : null } as IStyleData);
  }
  clear() {
    setStyle(this.range, { bg: null } as IStyleData);
  }
}
