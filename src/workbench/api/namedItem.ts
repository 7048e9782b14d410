import { isBuiltIn } from '../../sheets/builtin';
import type { Name } from '../engine/names';
import { parseReference } from '../engine/reference';
import { ApiError } from '../errors';
import { type ApiHost, ApiObject } from './object';
import { Range } from './range';

export class NamedItem extends ApiObject {
  readonly typeName = 'NamedItem';
  override readonly scalars = ['name', 'type', 'value', 'visible', 'comment', 'scope', 'formula'];
  constructor(
    host: ApiHost,
    readonly item: Name,
  ) {
    super(host);
  }
  override identity() {
    return { _Id: this.item.name };
  }
  get name() {
    return this.item.name;
  }
  get formula() {
    return this.item.refersTo;
  }
  set formula(formula: string) {
    this.engine.formulas.redefine(this.item, formula);
  }
  get comment() {
    return this.item.comment;
  }
  set comment(comment: string) {
    this.item.comment = comment;
  }
  get visible() {
    return !this.item.hidden;
  }
  /** A name stays visible that is hidden in the batch it was added in (OfficeDev/office-js issue 3878). */
  set visible(visible: boolean) {
    if (this.host.added.has(this.item)) return;
    this.item.hidden = !visible;
  }
  get scope() {
    return this.item.sheet === undefined ? 'Workbook' : 'Worksheet';
  }
  get type() {
    const value = this.#constant();
    if (value === undefined) return parseReference(this.item.refersTo) ? 'Range' : 'Error';
    if (typeof value === 'number') return 'Double';
    return typeof value === 'boolean' ? 'Boolean' : 'String';
  }
  /** The constant, or for a range its address as in the formula. */
  get value() {
    return this.#constant() ?? this.item.refersTo.replace(/^=/, '');
  }
  get worksheet() {
    const sheet = this.item.sheet === undefined ? undefined : this.engine.sheetById(this.item.sheet);
    if (!sheet) throw new ApiError('ItemNotFound', 'The name belongs to the workbook.');
    return this.host.worksheet(sheet);
  }
  getRange() {
    return Range.ofReference(this.host, this.item.refersTo);
  }
  delete() {
    if (isBuiltIn(this.item.name))
      throw new ApiError('InvalidArgument', `"${this.item.name}" is the program's own.`);
    this.engine.formulas.remove(this.item);
  }
  #constant(): string | number | boolean | undefined {
    const text = this.item.refersTo.replace(/^=/, '').trim();
    const quoted = /^"((?:[^"]|"")*)"$/.exec(text);
    if (quoted) return quoted[1]!.replace(/""/g, '"');
    if (/^(true|false)$/i.test(text)) return text.toLowerCase() === 'true';
    return text !== '' && Number.isFinite(Number(text)) ? Number(text) : undefined;
  }
}
