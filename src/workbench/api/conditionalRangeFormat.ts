import type { ConditionalItem, ConditionalLook } from '../engine/rules';
import type { Sheet } from '../engine/sheet';
import { colour } from '../engine/styles';
import { type ApiHost, ApiObject } from './object';

/** The look a conditional format gives its cells. */
export class ConditionalRangeFormat extends ApiObject {
  readonly typeName = 'ConditionalRangeFormat';
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    readonly item: ConditionalItem,
  ) {
    super(host);
  }
  get fill() {
    return new ConditionalRangeFill(this.host, this.sheet, this.item);
  }
  get font() {
    return new ConditionalRangeFont(this.host, this.sheet, this.item);
  }
}

abstract class LookPart extends ApiObject {
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    readonly item: ConditionalItem,
  ) {
    super(host);
  }
  protected set(change: ConditionalLook): void {
    Object.assign(this.item.look, change);
    this.engine.looksChanged(this.sheet);
  }
}

class ConditionalRangeFill extends LookPart {
  readonly typeName = 'ConditionalRangeFill';
  override readonly scalars = ['color'];
  get color() {
    return this.item.look.fill ?? null;
  }
  set color(value: string | null) {
    this.set({ fill: value ? colour(value) : undefined });
  }
  clear() {
    this.set({ fill: undefined });
  }
}

class ConditionalRangeFont extends LookPart {
  readonly typeName = 'ConditionalRangeFont';
  override readonly scalars = ['bold', 'color', 'italic'];
  get color() {
    return this.item.look.color ?? null;
  }
  set color(value: string | null) {
    this.set({ color: value ? colour(value) : undefined });
  }
  get bold() {
    return this.item.look.bold ?? null;
  }
  set bold(bold: boolean | null) {
    this.set({ bold: bold ?? undefined });
  }
  get italic() {
    return this.item.look.italic ?? null;
  }
  set italic(italic: boolean | null) {
    this.set({ italic: italic ?? undefined });
  }
  clear() {
    this.set({
      color: undefined,
      bold: undefined,
      italic: undefined,
    });
  }
}
