import { intersection } from '../engine/reference';
import type { ConditionalItem } from '../engine/rules';
import { ApiError } from '../errors';
import type { Area } from './area';
import { ConditionalFormat } from './conditionalFormat';
import { ApiCollection, type ApiHost } from './object';

export class ConditionalFormatCollection extends ApiCollection<ConditionalFormat> {
  readonly typeName = 'ConditionalFormatCollection';
  constructor(
    host: ApiHost,
    readonly range: Area,
  ) {
    super(host);
  }
  /** Every format that touches the range, the latest first: Excel gives a new one the highest priority. */
  all() {
    const { sheet, rect } = this.range;
    return sheet.formats
      .filter((item) => intersection(item.range, rect))
      .reverse()
      .map((item) => new ConditionalFormat(this.host, sheet, item));
  }
  add(type: string) {
    const { sheet, rect } = this.range;
    sheet.requireAllowed('allowFormatCells');
    if (type !== 'ColorScale' && type !== 'ContainsText')
      throw new ApiError(
        'ApiNotAvailable',
        `The workbench does not have conditional formats of type ${type}.`,
      );
    const item: ConditionalItem = {
      id: this.engine.nextId(),
      range: rect,
      type,
      stopIfTrue: false,
      look: {},
    };
    sheet.formats.push(item);
    this.engine.looksChanged(sheet);
    return new ConditionalFormat(this.host, sheet, item);
  }
  getItem(id: unknown) {
    const found = this.all().find((format) => format.id === id);
    if (!found) throw new ApiError('ItemNotFound');
    return found;
  }
  clearAll() {
    const { sheet, rect } = this.range;
    sheet.requireAllowed('allowFormatCells');
    sheet.clearFormats(rect);
    this.engine.looksChanged(sheet);
  }
}
