import type { IStyleData } from '@univerjs/core';
import { colour } from '../engine/styles';
import { ApiError } from '../errors';
import type { Area } from './area';
import { type ApiHost, ApiObject } from './object';
import { getStyle, setStyle } from './style';

/** The font of a new workbook since 2023; the one before was Calibri. */
const NEW_WORKBOOK = 'Aptos Narrow';

export class RangeFont extends ApiObject {
  readonly typeName = 'RangeFont';
  override readonly scalars = ['bold', 'color', 'italic', 'name', 'size'];
  constructor(
    host: ApiHost,
    readonly range: Area,
  ) {
    super(host);
  }
  get bold(): boolean | null {
    return getStyle(this.range, (style) => style.bl === 1);
  }
  set bold(on: boolean) {
    setStyle(this.range, { bl: on ? 1 : null } as IStyleData);
  }
  get italic(): boolean | null {
    return getStyle(this.range, (style) => style.it === 1);
  }
  set italic(on: boolean) {
    setStyle(this.range, { it: on ? 1 : null } as IStyleData);
  }
  get color(): string | null {
    return getStyle(this.range, (style) => (style.cl?.rgb ? colour(style.cl.rgb) : '#000000'));
  }
  set color(value: string) {
    setStyle(this.range, { cl: { rgb: colour(value) } });
  }
  get name(): string | null {
    return getStyle(this.range, (style) => style.ff ?? NEW_WORKBOOK);
  }
  set name(value: string) {
    setStyle(this.range, { ff: value });
  }
  get size(): number | null {
    return getStyle(this.range, (style) => style.fs ?? 11);
  }
  set size(points: number) {
    if (!(points >= 1 && points <= 409)) throw new ApiError('InvalidArgument');
    setStyle(this.range, { fs: points });
  }
}
