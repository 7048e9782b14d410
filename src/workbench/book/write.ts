import { addressOf, cellName, columnName, type Rect } from '../../sheets/address';
import type {
  Alert,
  Book,
  BookCell,
  BookSheet,
  ColourScale,
  DefinedName,
  PrintSetup,
} from '../../sheets/book';
import type { Engine } from '../engine/engine';
import type { Name } from '../engine/names';
import { formatAddress } from '../engine/reference';
import type { Sheet } from '../engine/sheet';
import { fromEngineStyle } from '../engine/styles';
import { charactersOf, POINTS_PER_PIXEL } from './measures';
import { toValidation } from './validation';

/** The workbook as plain data: everything typed, formulas as they were written, looks, names and rules. */
export function toBook(engine: Engine): Book {
  return {
    sheets: engine.sheets().map((sheet) => sheetBook(sheet)),
    names: engine.names.of(undefined).map(definedName),
    active: engine.activeSheet.name,
  };
}

function sheetBook(sheet: Sheet): BookSheet {
  const { rows, columns } = sheet.frozen();
  const print = printSetup(sheet);
  return {
    name: sheet.name,
    visibility: ({ Visible: 'visible', Hidden: 'hidden', VeryHidden: 'veryHidden' } as const)[
      sheet.visibility
    ],
    cells: cellsOfSheet(sheet),
    names: sheet.engine.names.of(sheet.id).map(definedName),
    validations: sheet.validations.flatMap((item) => toValidation(item) ?? []),
    scales: sheet.formats.flatMap((item) => scale(item) ?? []),
    alerts: sheet.formats.flatMap((item) => alert(item) ?? []),
    notes: [...sheet.notes.entries()].map(({ row, column, item }) => ({
      at: cellName(row, column),
      text: item,
    })),
    merges: sheet.merges().map(addressOf),
    columns: sizes(sheet.shown.getSheet().getConfig().columnData, 'w', columnName, charactersOf),
    rows: sizes(
      sheet.shown.getSheet().getConfig().rowData,
      'h',
      (row) => String(row + 1),
      (px) => px * POINTS_PER_PIXEL,
    ),
    isProtected: sheet.protection !== undefined,
    ...(rows || columns ? { freeze: { rows, columns } } : {}),
    ...(sheet.filter
      ? {
          filter: {
            range: addressOf(sheet.filter),
            sorts: sheet.protection?.options.allowSort === true,
          },
        }
      : {}),
    gridlines: !sheet.shown.hasHiddenGridLines(),
    ...(print ? { print } : {}),
  };
}

function cellsOfSheet(sheet: Sheet): Record<string, BookCell> {
  const cells: Record<string, BookCell> = {};
  const add = (row: number, column: number) => {
    const at = cellName(row, column);
    if (cells[at]) return;
    const value = sheet.value(row, column);
    const formula = sheet.formula(row, column);
    const spill = formula === undefined ? undefined : sheet.engine.port.spill(sheet.id, row, column);
    const style = fromEngineStyle(sheet.style(row, column), sheet.isLocked(row, column));
    if (value === null && formula === undefined && !style) return;
    cells[at] = {
      value,
      ...(formula === undefined ? {} : { formula }),
      ...(spill ? { spill: addressOf(spill) } : {}),
      ...(style ? { style } : {}),
    };
  };
  for (const { row, column } of sheet.engine.port.cells(sheet.id)) add(row, column);
  for (const { row, column } of sheet.unlocked.entries()) add(row, column);
  // What an array result fills is not stored with the cells; a file without it would show one cell of a table.
  for (const spill of sheet.engine.port.spills(sheet.id))
    for (const [row, column] of placesOf(spill)) add(row, column);
  return cells;
}

function* placesOf({ row, column, rows, columns }: Rect): Iterable<readonly [number, number]> {
  for (let r = row; r < row + rows; r++) for (let c = column; c < column + columns; c++) yield [r, c];
}

function definedName({ name, refersTo, comment, hidden }: Name): DefinedName {
  return { name, refersTo, ...(comment ? { comment } : {}), ...(hidden ? { hidden } : {}) };
}

function scale({ range, scale: criteria }: Sheet['formats'][number]): ColourScale | undefined {
  if (!criteria?.minimum.color || !criteria.maximum.color) return undefined;
  const { minimum, midpoint, maximum } = criteria;
  return {
    range: addressOf(range),
    low: minimum.color!,
    ...(midpoint?.color ? { middle: midpoint.color } : {}),
    high: maximum.color!,
  };
}
function alert({ range, text, look }: Sheet['formats'][number]): Alert | undefined {
  if (text?.operator !== 'BeginsWith') return undefined;
  return {
    range: addressOf(range),
    begins: text.text,
    fill: look.fill ?? '#FFFFFF',
    color: look.color ?? '#000000',
  };
}

function printSetup({ page }: Sheet): PrintSetup | undefined {
  if (!page.area) return undefined;
  const { titleRows: titles, titleColumns } = page;
  const { horizontalFitToPages = 0, verticalFitToPages = 0, scale } = page.zoom;
  return {
    area: addressOf(page.area),
    orientation: page.orientation === 'Landscape' ? 'landscape' : 'portrait',
    wide: horizontalFitToPages,
    tall: verticalFitToPages,
    ...(horizontalFitToPages + verticalFitToPages > 0 || scale === undefined ? {} : { scale }),
    ...(titles ? { titles: `${titles.row + 1}:${titles.row + titles.rows}` } : {}),
    ...(titleColumns ? { titleColumns: formatAddress(titleColumns) } : {}),
    ...(page.breaks.length > 0 ? { breaks: page.breaks.map((row) => row + 1) } : {}),
    ...(page.columnBreaks.length > 0 ? { columnBreaks: page.columnBreaks.map(columnName) } : {}),
  };
}

/** Only the widths and heights that somebody set. */
function sizes(
  data: unknown,
  key: 'w' | 'h',
  label: (index: number) => string,
  convert: (pixels: number) => number,
): Record<string, number> {
  const found: Record<string, number> = {};
  for (const [index, entry] of Object.entries(
    (data ?? {}) as Record<string, Record<string, unknown> | undefined>,
  )) {
    // Marked `hd` where it is hidden.
    const pixels = entry?.hd === 1 ? 0 : entry?.[key];
    // A height the engine fitted by itself is marked `ia`.
    if (typeof pixels === 'number' && (pixels === 0 || !(key === 'h' && entry?.ia === 1)))
      found[label(Number(index))] = convert(pixels);
  }
  return found;
}
