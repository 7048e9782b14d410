import type { ConditionalItem, ScaleCriteria } from '../engine/rules';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { ConditionalRangeFormat } from './conditionalRangeFormat';
import { type ApiHost, ApiObject } from './object';

export class ConditionalFormat extends ApiObject {
  readonly typeName = 'ConditionalFormat';
  override readonly scalars = ['id', 'type'];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    readonly item: ConditionalItem,
  ) {
    super(host);
  }
  override identity() {
    return { Id: this.item.id };
  }
  get id() {
    return this.item.id;
  }
  get type() {
    return this.item.type;
  }
  get colorScale() {
    return this.#part('ColorScale', () => new ColorScaleConditionalFormat(this.host, this.sheet, this.item));
  }
  get textComparison() {
    return this.#part('ContainsText', () => new TextConditionalFormat(this.host, this.sheet, this.item));
  }
  getRange() {
    return this.host.range(this.sheet, this.item.range);
  }
  delete() {
    this.sheet.requireAllowed('allowFormatCells');
    this.sheet.formats = this.sheet.formats.filter((item) => item !== this.item);
    this.engine.looksChanged(this.sheet);
  }
  #part<T>(type: ConditionalItem['type'], make: () => T): T {
    if (this.item.type !== type)
      throw new ApiError('InvalidOperation', `The conditional format is of type ${this.item.type}.`);
    return make();
  }
}

abstract class Part extends ApiObject {
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
    readonly item: ConditionalItem,
  ) {
    super(host);
  }
  protected changed(): void {
    this.engine.looksChanged(this.sheet);
  }
}

class ColorScaleConditionalFormat extends Part {
  readonly typeName = 'ColorScaleConditionalFormat';
  override readonly scalars = ['criteria'];
  get criteria() {
    return this.item.scale ?? null;
  }
  set criteria(criteria: ScaleCriteria | null) {
    if (!criteria?.minimum || !criteria.maximum) throw new ApiError('InvalidArgument');
    this.item.scale = criteria;
    this.changed();
  }
}

class TextConditionalFormat extends Part {
  readonly typeName = 'TextConditionalFormat';
  override readonly scalars = ['rule'];
  get format() {
    return new ConditionalRangeFormat(this.host, this.sheet, this.item);
  }
  get rule() {
    return this.item.text ?? null;
  }
  set rule(rule: NonNullable<ConditionalItem['text']> | null) {
    const known = ['Contains', 'NotContains', 'BeginsWith', 'EndsWith'];
    if (!rule || !known.includes(rule.operator) || typeof rule.text !== 'string')
      throw new ApiError('InvalidArgument');
    this.item.text = rule;
    this.changed();
  }
}
