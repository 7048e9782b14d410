import type { Rect } from '../../sheets/address';
import type { CellValue } from '../../sheets/book';
import { FONT } from '../../sheets/style';
import { type Input, parseInput } from '../engine/input';
import { intersection, parseReference, requireAddress } from '../engine/reference';
import type { Sheet } from '../engine/sheet';
import { colour } from '../engine/styles';
import { cellText } from '../engine/text';
import { ApiError } from '../errors';
import { setCellProperties } from './cellProperties';
import { ConditionalFormatCollection } from './conditionalFormatCollection';
import { DataValidation } from './dataValidation';
import type { ApiHost } from './object';
import { RangeFormat } from './rangeFormat';
import { RangePlace } from './rangePlace';
import { matrixOf } from './shape';

/** Excel refuses to hand over that many cells at once too; whole rows and columns have no values here. */
const MOST_CELLS = 5_000_000;

/** What of a cell's format the workbench tells. */
const CELL_WISHES = ['protection', 'font.color', 'font.size', 'fill.color'];
/** Points of 1/72 in, pixels of 1/96 in. */
const POINTS_PER_PIXEL = 0.75;

export class Range extends RangePlace<Range> {
  readonly typeName = 'Range';
  override readonly scalars = [
    'address',
    'cellCount',
    'columnCount',
    'columnIndex',
    'formulas',
    'numberFormat',
    'rowCount',
    'rowIndex',
    'text',
    'values',
    'valueTypes',
  ];

  protected override at(rect: Rect): Range {
    return new Range(this.host, this.alive, rect);
  }
  static ofAddress(host: ApiHost, sheet: Sheet, address: string): Range {
    return new Range(host, sheet, requireAddress(address.slice(address.lastIndexOf('!') + 1)));
  }
  /** `='Run 1'!$B$2` → range; ItemNotFound when it is no reference or its sheet is gone. */
  static ofReference(host: ApiHost, refersTo: string): Range {
    const reference = parseReference(refersTo);
    const sheet = reference && host.engine.sheetByName(reference.sheet);
    if (!reference || !sheet) throw new ApiError('ItemNotFound', `"${refersTo}" is not a range.`);
    return new Range(host, sheet, reference.rect);
  }

  get values() {
    return this.#map((row, column) => shownValue(this.sheet.value(row, column)));
  }
  set values(values: unknown) {
    this.#enter(values);
  }
  get formulas() {
    return this.#map(
      (row, column) => this.sheet.formulaShown(row, column) ?? shownValue(this.sheet.value(row, column)),
    );
  }
  set formulas(formulas: unknown) {
    this.#enter(formulas);
  }
  get text() {
    return this.#map((row, column) =>
      cellText(this.sheet.value(row, column), this.sheet.numberFormat(row, column)),
    );
  }
  get valueTypes() {
    return this.#map((row, column) => valueType(this.sheet.value(row, column)));
  }
  get numberFormat() {
    return this.#map((row, column) => this.sheet.numberFormat(row, column));
  }
  set numberFormat(formats: unknown) {
    this.sheet.requireAllowed('allowFormatCells');
    const at = matrixOf<string | null>(formats, this.#area);
    this.sheet.restyle(this.#area, (row, column) => {
      const format = at(row - this.rect.row, column - this.rect.column);
      if (format === null) return {};
      return { n: format === 'General' ? null : { pattern: String(format) } };
    });
  }

  get worksheet() {
    return this.host.worksheet(this.alive);
  }
  get format() {
    return new RangeFormat(this.host, this);
  }
  get dataValidation() {
    return new DataValidation(this.host, this);
  }
  get conditionalFormats() {
    return new ConditionalFormatCollection(this.host, this);
  }

  /** Of what `getCellProperties` can tell the lock, the letters' colour and size and the fill; other wishes are refused. */
  getCellProperties(wanted: unknown) {
    const asked = wishes('getCellProperties', wanted, { format: CELL_WISHES });
    const { row, column, rows, columns } = this.sheet.clip(this.rect);
    const look = (r: number, c: number) => {
      const { cl, bg, fs } = this.sheet.style(r, c);
      return {
        ...(asked.has('protection') ? { protection: { locked: this.sheet.isLocked(r, c) } } : {}),
        ...(asked.has('font')
          ? { font: { color: cl?.rgb ? colour(cl.rgb) : '#000000', size: fs ?? FONT.size } }
          : {}),
        ...(asked.has('fill') ? { fill: { color: bg?.rgb ? colour(bg.rgb) : '#FFFFFF' } } : {}),
      };
    };
    return Array.from({ length: rows }, (_, r) =>
      Array.from({ length: columns }, (__, c) => ({ format: look(row + r, column + c) })),
    );
  }
  /** Looks cell by cell, one set of properties for each. */
  setCellProperties(given: unknown) {
    const { row, column, rows, columns } = this.rect;
    const isWhole = Array.isArray(given) && given.length === rows;
    if (!isWhole || given.some((line) => !Array.isArray(line) || line.length !== columns))
      throw new ApiError('InvalidArgument', `setCellProperties takes ${rows} × ${columns} sets here.`);
    given.forEach((line: readonly unknown[], r) => {
      line.forEach((wanted, c) => {
        const cell = this.at({ row: row + r, column: column + c, rows: 1, columns: 1 });
        setCellProperties(cell.format, wanted);
      });
    });
  }
  getRowProperties(wanted: unknown) {
    wishes('getRowProperties', wanted, { rowHidden: [], format: ['rowHeight'] });
    const { row, rows } = this.sheet.clip(this.rect);
    const { shown } = this.sheet;
    return Array.from({ length: rows }, (_, r) => {
      const pixels = shown.getSheet().getRowVisible(row + r) ? shown.getRowHeight(row + r) : 0;
      const rowHeight = pixels * POINTS_PER_PIXEL;
      return { rowHidden: rowHeight === 0, format: { rowHeight } };
    });
  }
  getColumnProperties(wanted: unknown) {
    wishes('getColumnProperties', wanted, { columnHidden: [], format: ['columnWidth'] });
    const { column, columns } = this.sheet.clip(this.rect);
    const { shown } = this.sheet;
    return Array.from({ length: columns }, (_, c) => {
      const pixels = shown.getSheet().getColVisible(column + c) ? shown.getColumnWidth(column + c) : 0;
      const columnWidth = pixels * POINTS_PER_PIXEL;
      return { columnHidden: columnWidth === 0, format: { columnWidth } };
    });
  }
  /**
   * Formulas as Excel copies them: relative references move along, anything else is copied as it is, and a
   * destination several times as large as the source gets it several times (reference of Range.copyFrom). Formats are
   * everything a cell looks like, its number format and lock included; conditional formats are not copied here.
   */
  copyFrom(from: Range | string, copyType = 'All', skipBlanks = false, transpose = false) {
    if (!['Formulas', 'Formats'].includes(copyType) || skipBlanks || transpose)
      throw new ApiError('ApiNotAvailable', `copyFrom: ${copyType}, skipBlanks, transpose`);
    const source = typeof from === 'string' ? Range.ofAddress(this.host, this.sheet, from) : from;
    const sheet = this.alive;
    if (copyType === 'Formats') {
      sheet.requireAllowed('allowFormatCells');
      sheet.copyLooks(source.alive, source.rect, this.#tiled(source.rect));
      return;
    }
    sheet.requireWritable(this.rect);
    sheet.copyContents(source.alive, source.rect, this.#tiled(source.rect));
    sheet.changed(this.rect, 'ThisLocalAddin');
  }
  /** What a copy of `source` fills: whole copies beside each other, else one. */
  #tiled(source: Rect): Rect {
    const times = (own: number, one: number) => (own % one === 0 ? own : one);
    return {
      ...this.rect,
      rows: times(this.rect.rows, source.rows),
      columns: times(this.rect.columns, source.columns),
    };
  }
  /** The client asks before it sends a large array in parts. */
  _ValidateArraySize(rows: number, columns: number) {
    if (rows !== this.rect.rows || columns !== this.rect.columns) throw new ApiError('InvalidArgument');
  }
  clear(applyTo = 'All') {
    if (applyTo !== 'Formats') {
      this.sheet.requireWritable(this.rect);
      this.sheet.enter(this.#used, () => ({ kind: 'empty' }));
    }
    if (applyTo === 'All' || applyTo === 'Formats') {
      this.sheet.requireAllowed('allowFormatCells');
      this.sheet.clearStyle(this.#used);
    }
    this.sheet.changed(this.rect, 'ThisLocalAddin');
  }
  select() {
    this.engine.select(this.alive, this.rect);
  }
  calculate() {
    this.engine.recalculate();
  }
  merge(across = false) {
    this.sheet.requireAllowed('allowFormatCells');
    this.sheet.merge(this.rect, across);
  }
  unmerge() {
    this.sheet.requireAllowed('allowFormatCells');
    this.sheet.unmerge(this.rect);
  }

  get #area(): Rect {
    return this.alive.clip(this.rect);
  }
  /** The part that holds anything: enough to clear a whole column. */
  get #used(): Rect {
    const used = this.alive.used(false);
    return (used && intersection(used, this.rect)) ?? { ...this.rect, rows: 1, columns: 1 };
  }
  #map<T>(get: (row: number, column: number) => T): T[][] | null {
    const { row, column, rows, columns } = this.rect;
    // As in Excel, a range too large to hand over has null instead of values.
    if (rows * columns > MOST_CELLS) return null;
    const sheet = this.alive;
    return Array.from({ length: rows }, (_, r) =>
      Array.from({ length: columns }, (__, c) => get.call(sheet, row + r, column + c)),
    );
  }
  #enter(given: unknown): void {
    const sheet = this.alive;
    sheet.requireWritable(this.rect);
    const at = matrixOf<Input>(given, this.#area);
    const before =
      this.cellCount === 1 ? shownValue(sheet.value(this.rect.row, this.rect.column)) : undefined;
    sheet.enter(this.#area, (row, column) => {
      const input = at(row - this.rect.row, column - this.rect.column);
      if (input !== null && !['string', 'number', 'boolean'].includes(typeof input))
        throw new ApiError('InvalidArgument');
      // null leaves a cell as it is (Office Add-ins documentation, "Working with blank and null values").
      if (input === null) return undefined;
      const entry = parseInput(input, sheet.numberFormat(row, column));
      if (entry.kind === 'formula' && !this.engine.formulas.isWellFormed(entry.formula))
        throw new ApiError('InvalidArgument', `"${entry.formula}" is not a formula.`);
      return entry;
    });
    sheet.changed(this.rect, 'ThisLocalAddin', before);
  }
}

/** What of a cell's format is asked for. @throws ApiError `ApiNotAvailable` for what the workbench cannot tell */
function wishes(
  member: string,
  wanted: unknown,
  known: Readonly<Record<string, readonly string[]>>,
): ReadonlySet<string> {
  const { format = {}, ...others } = (wanted ?? {}) as Record<string, unknown>;
  const asked = Object.entries(format as Record<string, unknown>).flatMap(([key, inner]) =>
    typeof inner === 'object' && inner !== null ? Object.keys(inner).map((each) => `${key}.${each}`) : [key],
  );
  const unknown = [
    ...Object.keys(others).filter((key) => !(key in known)),
    ...asked.filter((key) => !known.format?.includes(key)),
  ];
  if (unknown.length > 0) throw new ApiError('ApiNotAvailable', `${member}: ${unknown.join(', ')}`);
  return new Set(asked.map((key) => key.replace(/\..*$/, '')));
}

function shownValue(value: CellValue): string | number | boolean {
  if (value === null) return '';
  return typeof value === 'object' ? value.error : value;
}
function valueType(value: CellValue): string {
  if (value === null) return 'Empty';
  if (typeof value === 'object') return 'Error';
  return { number: 'Double', string: 'String', boolean: 'Boolean' }[
    typeof value as 'number' | 'string' | 'boolean'
  ];
}
