import { SHEET_COLUMNS, SHEET_ROWS } from '../../sheets/address';
import { EVENT } from '../bridge/notices';
import { copySheet } from '../engine/copy';
import { isInside, requireAddress } from '../engine/reference';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { AutoFilter } from './autoFilter';
import { withEvents } from './events';
import { NamedItemCollection } from './namedItemCollection';
import { type ApiHost, ApiObject } from './object';
import { PageBreakCollection } from './pageBreakCollection';
import { PageLayout } from './pageLayout';
import { Range } from './range';
import { WorksheetFreezePanes } from './worksheetFreezePanes';
import { WorksheetProtection } from './worksheetProtection';

export class Worksheet extends ApiObject {
  readonly typeName = 'Worksheet';
  override readonly scalars = ['name', 'id', 'position', 'visibility', 'showGridlines'];

  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  override identity() {
    return { Id: this.sheet.id };
  }
  get #alive(): Sheet {
    if (!this.engine.sheetById(this.sheet.id)) throw new ApiError('ItemNotFound', 'The sheet was deleted.');
    return this.sheet;
  }

  get id() {
    return this.sheet.id;
  }
  get name() {
    return this.#alive.name;
  }
  set name(name: string) {
    this.engine.renameSheet(this.#alive, name);
  }
  get position() {
    return this.#alive.position;
  }
  set position(position: number) {
    const { shown } = this.#alive;
    if (!(position >= 0 && position < this.engine.sheets().length)) throw new ApiError('InvalidArgument');
    this.engine.port.ours(() => this.engine.port.workbook.moveSheet(shown, position));
  }
  get visibility() {
    return this.#alive.visibility;
  }
  set visibility(visibility: 'Visible' | 'Hidden' | 'VeryHidden') {
    this.engine.setVisibility(this.#alive, visibility);
  }
  get showGridlines() {
    return !this.#alive.shown.hasHiddenGridLines();
  }
  /** The client sends `showGridlines = …` under this name. */
  set gridlines(shown: boolean) {
    this.engine.port.ours(() => this.#alive.shown.setHiddenGridlines(!shown));
  }

  get names() {
    return new NamedItemCollection(this.host, this.#alive);
  }
  get protection() {
    return new WorksheetProtection(this.host, this.#alive);
  }
  get freezePanes() {
    return new WorksheetFreezePanes(this.host, this.#alive);
  }
  get autoFilter() {
    return new AutoFilter(this.host, this.#alive);
  }
  get horizontalPageBreaks() {
    return new PageBreakCollection(this.host, this.#alive, 'breaks');
  }
  get verticalPageBreaks() {
    return new PageBreakCollection(this.host, this.#alive, 'columnBreaks');
  }
  get pageLayout() {
    return new PageLayout(this.host, this.#alive);
  }

  activate() {
    if (this.#alive.visibility !== 'Visible')
      throw new ApiError('InvalidOperation', 'A hidden sheet cannot be activated.');
    this.engine.activate(this.sheet);
  }
  calculate() {
    this.engine.recalculate();
  }
  delete() {
    this.engine.deleteSheet(this.#alive);
  }
  copy(positionType = 'None', relativeTo?: Worksheet) {
    const last = this.engine.sheets().length;
    const index = {
      None: last,
      End: last,
      Beginning: 0,
      Before: relativeTo?.sheet.position ?? 0,
      After: (relativeTo?.sheet.position ?? last - 1) + 1,
    }[positionType];
    if (index === undefined) throw new ApiError('InvalidArgument');
    return new Worksheet(this.host, copySheet(this.engine, this.#alive, index));
  }
  _GetSheetById(id: string) {
    return new Worksheet(this.host, this.engine.requireSheet(id));
  }
  _GetAnotherWorksheetById(id: string) {
    return this._GetSheetById(id);
  }

  getRange(address?: string | null) {
    const sheet = this.#alive;
    if (address === undefined || address === null || address === '')
      return new Range(this.host, sheet, { row: 0, column: 0, rows: SHEET_ROWS, columns: SHEET_COLUMNS });
    const name = this.engine.names.resolve(address, sheet.id);
    if (name) return Range.ofReference(this.host, name.refersTo);
    const own = address.includes('!') ? address.slice(address.lastIndexOf('!') + 1) : address;
    return new Range(this.host, sheet, requireAddress(own));
  }
  getCell(row: number, column: number) {
    return this.getRangeByIndexes(row, column, 1, 1);
  }
  getRangeByIndexes(row: number, column: number, rows: number, columns: number) {
    const rect = { row, column, rows, columns };
    if (!Object.values(rect).every(Number.isInteger) || !isInside(rect))
      throw new ApiError('InvalidArgument');
    return new Range(this.host, this.#alive, rect);
  }
  getUsedRange(valuesOnly?: boolean) {
    // Excel answers A1 for an empty sheet (reference of Worksheet.getUsedRange).
    const rect = this.#alive.used(valuesOnly === true) ?? { row: 0, column: 0, rows: 1, columns: 1 };
    return new Range(this.host, this.sheet, rect);
  }
  getUsedRangeOrNullObject(valuesOnly?: boolean) {
    const rect = this.#alive.used(valuesOnly === true);
    return rect ? new Range(this.host, this.sheet, rect) : null;
  }
}
withEvents(Worksheet.prototype, (sheet: Worksheet) => sheet.id, { EventNameChanged: EVENT.renamed });
