import { cellName, rectOf } from '../sheets/address';
import {
  type Book,
  type BookCell,
  type BookSheet,
  type CellValue,
  type DefinedName,
  EMPTY_SHEET,
  type ErrorKind,
} from '../sheets/book';
import { isBuiltIn } from '../sheets/builtin';
import type { BookRequest } from './host';
import { ownNames } from './read';
import { validationOf } from './rules';
import { askSpills, filledBy, isFormulaOf, type Spills } from './spills';

/**
 * The workbook as plain data, as far as trace, check and seal look: values, formulas, number formats, locks,
 * names, protection, and the validation of the ranges asked for. Three round trips, however many sheets.
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
  const loaded = chosen.map((sheet) => loadSheet(sheet, request.validations?.[sheet.name] ?? []));
  await context.sync();
  const filled = loaded.map((sheet) => ({
    ...sheet,
    locks: sheet.used.isNullObject ? undefined : loadLocks(sheet.used),
    spills: sheet.used.isNullObject ? () => new Map() : askSpills(sheet.sheet, sheet.used, tellsSpills),
  }));
  await context.sync();
  return {
    sheets: filled.map(({ locks, spills, ...sheet }) => bookSheet(sheet, locks?.value ?? [], spills())),
    names: names.items.filter(({ name }) => !isBuiltIn(name)).map(definedName),
  };
}

interface LoadedSheet {
  readonly sheet: Excel.Worksheet;
  readonly used: Excel.Range;
  readonly rules: readonly { readonly range: string; readonly validation: Excel.DataValidation }[];
}

function loadSheet(sheet: Excel.Worksheet, ranges: readonly string[]): LoadedSheet {
  const used = sheet.getUsedRangeOrNullObject(true);
  used.load('address,values,formulas,numberFormat,valueTypes');
  sheet.names.load('items/name,items/formula,items/visible,items/comment,items/scope');
  sheet.protection.load('protected');
  const rules = ranges.map((range) => {
    const { dataValidation } = sheet.getRange(range);
    dataValidation.load('rule,prompt,errorAlert,type');
    return { range, validation: dataValidation };
  });
  return { sheet, used, rules };
}

function loadLocks(used: Excel.Range): OfficeExtension.ClientResult<Excel.CellProperties[][]> {
  return used.getCellProperties({ format: { protection: true } });
}

function bookSheet(
  { sheet, used, rules }: LoadedSheet,
  locks: readonly Excel.CellProperties[][],
  spills: Spills,
): BookSheet {
  return {
    ...EMPTY_SHEET,
    name: sheet.name,
    visibility:
      sheet.visibility === 'Visible' ? 'visible' : sheet.visibility === 'Hidden' ? 'hidden' : 'veryHidden',
    cells: used.isNullObject ? {} : cellsOfRange(used, locks, spills),
    names: ownNames(sheet.names).map(definedName),
    validations: rules.flatMap(({ range, validation }) => {
      const read = validationOf(range, validation);
      return read ? [read] : [];
    }),
    isProtected: sheet.protection.protected,
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

function cellsOfRange(
  used: Excel.Range,
  locks: readonly Excel.CellProperties[][],
  spills: Spills,
): Record<string, BookCell> {
  const filled = filledBy(spills);
  const { row, column } = rectOf(used.address.slice(used.address.lastIndexOf('!') + 1));
  const cells: Record<string, BookCell> = {};
  used.values.forEach((line, r) => {
    line.forEach((value: unknown, c) => {
      const formula = used.formulas[r]![c] as unknown;
      const at = cellName(row + r, column + c);
      // What an array result fills may tell the formula that fills it.
      const isFormula = isFormulaOf(formula, value) && !filled.has(at);
      const spill = spills.get(at);
      const format = String(used.numberFormat[r]![c] ?? 'General');
      const isOpen = locks[r]?.[c]?.format?.protection?.locked === false;
      const cell = plain(value, used.valueTypes[r]![c]);
      const isEmpty = cell === null && !isFormula && !filled.has(at);
      if (isEmpty && format === 'General' && !isOpen) return;
      cells[at] = {
        value: cell,
        ...(isFormula ? { formula: String(formula) } : {}),
        ...(spill === undefined ? {} : { spill }),
        style: { ...(format === 'General' ? {} : { format }), ...(isOpen ? { locked: false } : {}) },
      };
    });
  });
  return cells;
}

function plain(value: unknown, type: Excel.RangeValueType | string | undefined): CellValue {
  if (value === '' || value === null || value === undefined) return type === 'String' ? '' : null;
  return type === 'Error' ? { error: String(value) as ErrorKind } : (value as CellValue);
}
