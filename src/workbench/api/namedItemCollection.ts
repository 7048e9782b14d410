import { absolute } from '../../sheets/address';
import { builtInNames } from '../engine/builtin';
import type { Name } from '../engine/names';
import { parseAddress, parseReference, sheetPrefix } from '../engine/reference';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type Area, absoluteReference } from './area';
import { NamedItem } from './namedItem';
import { ApiCollection, type ApiHost } from './object';

/** The names of one sheet, or (without a sheet) of the workbook. */
export class NamedItemCollection extends ApiCollection<NamedItem> {
  readonly typeName = 'NamedItemCollection';
  constructor(
    host: ApiHost,
    readonly sheet: Sheet | undefined,
  ) {
    super(host);
  }
  all() {
    return this.#names().map((name) => new NamedItem(this.host, name));
  }
  getItem(key: unknown) {
    const wanted = String(key).toLowerCase();
    const name = this.#names().find((item) => item.name.toLowerCase() === wanted);
    if (!name) throw new ApiError('ItemNotFound', `There is no name "${key}".`);
    return new NamedItem(this.host, name);
  }
  add(name: string, reference: Area | string, comment?: string | null) {
    const refersTo = typeof reference === 'string' ? this.#formula(reference) : absoluteReference(reference);
    const defined = this.engine.formulas.define(name, this.sheet?.id, refersTo, comment ?? '');
    this.host.added.add(defined);
    return new NamedItem(this.host, defined);
  }
  /** A sheet's list has the workbook's names that lead to it too (OfficeDev/office-js issue 1011), its own first. */
  #names(): readonly Name[] {
    const { names } = this.engine;
    if (!this.sheet) return names.of(undefined);
    const { id, name } = this.sheet;
    const leadsHere = ({ refersTo }: Name) =>
      parseReference(refersTo)?.sheet.toLowerCase() === name.toLowerCase();
    return [...names.of(id), ...builtInNames(this.sheet), ...names.of(undefined).filter(leadsHere)];
  }
  /** A bare `=$B$2` means the sheet the name belongs to; text without "=" is a text constant. */
  #formula(text: string): string {
    if (!text.startsWith('=')) return `="${text.replace(/"/g, '""')}"`;
    const address = text.slice(1);
    const sheet = this.sheet ?? this.engine.activeSheet;
    return parseAddress(address) ? `=${sheetPrefix(sheet.name)}${absolute(address)}` : text;
  }
}
