import { UNSEEN } from '../audit/seal/seen';
import { addressOf, cellName, columnName, rectOf } from '../sheets/address';
import {
  type Book,
  type BookCell,
  type BookSheet,
  type CellValue,
  type DefinedName,
  EMPTY_SHEET,
  type ErrorKind,
  type Style,
} from '../sheets/book';
import { isBuiltIn } from '../sheets/builtin';
import { FONT } from '../sheets/style';
import type { BookRequest } from './host';
import { groupsOf, tripsOf } from './parts';
import { ownNames } from './read';
import { validationOf } from './rules';
import { askSpills, filledBy, isFormulaOf, type Spills } from './spills';

/**
 * Columns that are looked at beyond what is filled in, where anything there has a look: cells for input may be empty. A
 * whole row that somebody coloured reaches to the last of 16 384.
 */
const EMPTY_COLUMNS = 40;

/** How many sheets' names are asked for in one round trip: 300 names of a sheet take up to 100 kB. */
const SHEETS_A_TRIP = 20;

/**
 * The workbook as plain data, as far as trace, check and seal look: values, formulas, number formats, locks,
 * names, protection, for seals looks and what is hidden, and the validation of the ranges asked for. Four round trips for a few sheets; more sheets
 * and longer ones take as many more as it takes to keep every answer below what the program sends.
 *
 * @param tellsSpills whether the program says what an array result fills (ExcelApi 1.12)
 */
export async function readBook(
  context: Excel.RequestContext,
  request: BookRequest,
  tellsSpills: boolean,
): Promise<Book> {
  const { worksheets, names } = context.workbook;
  worksheets.load('items/name,items/visibility');
  names.load('items/name,items/formula,items/visible,items/comment');
  await context.sync();
  const chosen = worksheets.items.filter(({ name }) => request.sheets?.includes(name) ?? true);
  const loaded: LoadedSheet[] = [];
  for (const group of groupsOf(chosen, SHEETS_A_TRIP)) {
    loaded.push(...group.map((sheet) => loadSheet(sheet, request)));
    await context.sync();
  }
  await readLines(context, loaded, request.isSeen === true);
  const asked = loaded.map((sheet) => ({ ...sheet, spills: spillsOf(sheet, tellsSpills) }));
  await context.sync();
  return {
    sheets: asked.map(({ spills, ...sheet }) => bookSheet(sheet, spills())),
    names: names.items.filter(({ name }) => !isBuiltIn(name)).map(definedName),
  };
}

interface LoadedSheet {
  readonly sheet: Excel.Worksheet;
  readonly used: Excel.Range;
  /** What is used or has a look. */
  readonly dressed: Excel.Range;
  /** The lines that a filter of the sheet may hide. */
  readonly filter: Excel.Range | undefined;
  readonly rules: readonly { readonly range: string; readonly validation: Excel.DataValidation }[];
  readonly lines: Lines;
}

/** The used range row by row, as the program gives it. */
interface Lines {
  readonly values: unknown[][];
  readonly formulas: unknown[][];
  readonly formats: unknown[][];
  readonly types: string[][];
  readonly cells: Excel.CellProperties[][];
  readonly heights: Excel.RowProperties[];
  /** The same of every block; undefined where nobody asked. */
  widths?: Excel.ColumnProperties[];
}

/** What is asked of every cell, and what a seal asks beside it. */
const LOCKS: Excel.CellPropertiesLoadOptions = { format: { protection: true } };
const LOOKS: Excel.CellPropertiesLoadOptions = {
  format: { protection: true, font: { color: true, size: true }, fill: { color: true } },
};

function loadSheet(sheet: Excel.Worksheet, { validations, isSeen }: BookRequest): LoadedSheet {
  const used = sheet.getUsedRangeOrNullObject(true);
  used.load('address');
  const dressed = sheet.getUsedRangeOrNullObject(false);
  dressed.load('address');
  sheet.names.load('items/name,items/formula,items/visible,items/comment,items/scope');
  sheet.protection.load('protected');
  const filter = isSeen ? sheet.autoFilter.getRangeOrNullObject() : undefined;
  filter?.load('address');
  const rules = (validations?.[sheet.name] ?? []).map((range) => {
    const { dataValidation } = sheet.getRange(range);
    dataValidation.load('rule,prompt,errorAlert,type');
    return { range, validation: dataValidation };
  });
  return {
    sheet,
    used,
    dressed,
    filter,
    rules,
    lines: { values: [], formulas: [], formats: [], types: [], cells: [], heights: [] },
  };
}

/** Everything that stands in the sheets, block of rows by block of rows. */
async function readLines(
  context: Excel.RequestContext,
  loaded: readonly LoadedSheet[],
  isSeen: boolean,
): Promise<void> {
  const areas = loaded.filter(({ used }) => !used.isNullObject).map((of) => ({ of, address: areaOf(of) }));
  for (const trip of tripsOf(areas)) {
    const blocks = trip.map(({ of: { sheet, lines }, address }) => {
      const range = sheet.getRange(address);
      range.load('values,formulas,numberFormat,valueTypes');
      const cells = range.getCellProperties(isSeen ? LOOKS : LOCKS);
      if (!isSeen) return { range, lines, cells };
      const heights = range.getRowProperties({ rowHidden: true, format: { rowHeight: true } });
      const widths = range.getColumnProperties({ columnHidden: true, format: { columnWidth: true } });
      return { range, lines, cells, heights, widths };
    });
    await context.sync();
    for (const { range, lines, cells, heights, widths } of blocks) {
      lines.values.push(...range.values);
      lines.formulas.push(...range.formulas);
      lines.formats.push(...range.numberFormat);
      lines.types.push(...range.valueTypes);
      lines.cells.push(...cells.value);
      if (heights) lines.heights.push(...heights.value);
      if (widths) lines.widths = widths.value;
    }
  }
}

function spillsOf(loaded: LoadedSheet, tellsSpills: boolean): () => Spills {
  const { sheet, used, lines } = loaded;
  if (used.isNullObject) return () => new Map();
  return askSpills(sheet, { address: areaOf(loaded), ...lines }, tellsSpills);
}

const localOf = ({ address }: Excel.Range) => address.slice(address.lastIndexOf('!') + 1);

/** Where anything stands that is looked at; to be asked only of a sheet with something in it. */
function areaOf({ used, dressed }: Pick<LoadedSheet, 'used' | 'dressed'>): string {
  const filled = rectOf(localOf(used));
  if (dressed.isNullObject) return addressOf(filled);
  const { column, columns } = rectOf(localOf(dressed));
  const first = Math.min(filled.column, column);
  const end = filled.column + filled.columns;
  const last = Math.max(end, Math.min(column + columns, EMPTY_COLUMNS));
  return addressOf({ ...filled, column: first, columns: last - first });
}

function bookSheet(loaded: LoadedSheet, spills: Spills): BookSheet {
  const { sheet, used, filter, rules, lines } = loaded;
  const area = used.isNullObject ? undefined : areaOf(loaded);
  return {
    ...EMPTY_SHEET,
    name: sheet.name,
    visibility:
      sheet.visibility === 'Visible' ? 'visible' : sheet.visibility === 'Hidden' ? 'hidden' : 'veryHidden',
    cells: area === undefined ? {} : cellsOfLines(area, lines, spills),
    ...(area === undefined ? {} : hiddenIn(area, lines)),
    names: ownNames(sheet.names).map(definedName),
    validations: rules.flatMap(({ range, validation }) => {
      const read = validationOf(range, validation);
      return read ? [read] : [];
    }),
    isProtected: sheet.protection.protected,
    // Whether lines may be sorted is not asked here.
    ...(filter && !filter.isNullObject ? { filter: { range: localOf(filter), sorts: false } } : {}),
  };
}

/** Rows and columns that are not seen, of size 0; other sizes are not told. */
function hiddenIn(address: string, { heights, widths = [] }: Lines): Pick<BookSheet, 'rows' | 'columns'> {
  const { row, column } = rectOf(address);
  const zero = (keys: readonly string[]) => Object.fromEntries(keys.map((key) => [key, 0]));
  const isUnseen = (isHidden: boolean | undefined, points: number | undefined) =>
    isHidden === true || (typeof points === 'number' && points <= UNSEEN);
  return {
    rows: zero(
      heights.flatMap(({ rowHidden, format }, r) =>
        isUnseen(rowHidden, format?.rowHeight) ? [String(row + r + 1)] : [],
      ),
    ),
    columns: zero(
      widths.flatMap(({ columnHidden, format }, c) =>
        isUnseen(columnHidden, format?.columnWidth) ? [columnName(column + c)] : [],
      ),
    ),
  };
}

/** What differs from a new cell: a program tells black on white for one without a look. */
function lookIn(format: Excel.CellPropertiesFormat | undefined): Pick<Style, 'color' | 'fill' | 'size'> {
  const { color, size } = format?.font ?? {};
  const fill = format?.fill?.color;
  return {
    ...(color && color.toUpperCase() !== '#000000' ? { color: color.toUpperCase() } : {}),
    ...(fill && fill.toUpperCase() !== '#FFFFFF' ? { fill: fill.toUpperCase() } : {}),
    ...(size && size !== FONT.size ? { size } : {}),
  };
}

function definedName({ name, formula, visible, comment }: Excel.NamedItem): DefinedName {
  return {
    name,
    refersTo: String(formula),
    ...(visible ? {} : { hidden: true }),
    ...(comment ? { comment } : {}),
  };
}

function cellsOfLines(address: string, lines: Lines, spills: Spills): Record<string, BookCell> {
  const filled = filledBy(spills);
  const { row, column } = rectOf(address);
  const cells: Record<string, BookCell> = {};
  lines.values.forEach((line, r) => {
    line.forEach((value, c) => {
      const formula = lines.formulas[r]![c];
      const at = cellName(row + r, column + c);
      // What an array result fills may tell the formula that fills it.
      const isFormula = isFormulaOf(formula, value) && !filled.has(at);
      const spill = spills.get(at);
      const format = String(lines.formats[r]![c] ?? 'General');
      const properties = lines.cells[r]?.[c]?.format;
      const isOpen = properties?.protection?.locked === false;
      const cell = plain(value, lines.types[r]![c]);
      const isEmpty = cell === null && !isFormula && !filled.has(at);
      if (isEmpty && format === 'General' && !isOpen) return;
      cells[at] = {
        value: cell,
        ...(isFormula ? { formula: String(formula) } : {}),
        ...(spill === undefined ? {} : { spill }),
        style: {
          ...(format === 'General' ? {} : { format }),
          ...lookIn(properties),
          ...(isOpen ? { locked: false } : {}),
        },
      };
    });
  });
  return cells;
}

function plain(value: unknown, type: Excel.RangeValueType | string | undefined): CellValue {
  if (value === '' || value === null || value === undefined) return type === 'String' ? '' : null;
  return type === 'Error' ? { error: String(value) as ErrorKind } : (value as CellValue);
}
