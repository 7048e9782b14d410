import { absolute } from '../../sheets/address';
import { parseAddress, sheetPrefix } from '../engine/reference';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { NamedItem } from './namedItem';
import { ApiCollection, type ApiHost } from './object';
import type { Range } from './range';

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
    return this.engine.names.of(this.sheet?.id).map((name) => new NamedItem(this.host, name));
  }
  getItem(key: unknown) {
    const name = this.engine.names.find(String(key), this.sheet?.id);
    if (!name) throw new ApiError('ItemNotFound', `There is no name "${key}".`);
    return new NamedItem(this.host, name);
  }
  add(name: string, reference: Range | string, comment?: string | null) {
    const refersTo = typeof reference === 'string' ? this.#formula(reference) : reference.absoluteReference();
    return new NamedItem(
      this.host,
      this.engine.formulas.define(name, this.sheet?.id, refersTo, comment ?? ''),
    );
  }
  /** A bare `=$B$2` means the sheet the name belongs to; text without "=" is a text constant. */
  #formula(text: string): string {
    if (!text.startsWith('=')) return `="${text.replace(/"/g, '""')}"`;
    const address = text.slice(1);
    const sheet = this.sheet ?? this.engine.activeSheet;
    return parseAddress(address) ? `=${sheetPrefix(sheet.name)}${absolute(address)}` : text;
  }
}
