import type { IStyleData } from '@univerjs/core';
import { colour } from '../engine/styles';
import type { Area } from './area';
import { type ApiHost, ApiObject } from './object';
import { getStyle, setStyle } from './style';

export class RangeFill extends ApiObject {
  readonly typeName = 'RangeFill';
  override readonly scalars = ['color'];
  constructor(
    host: ApiHost,
    readonly range: Area,
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
