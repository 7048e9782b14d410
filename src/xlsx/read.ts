import { zipSync } from 'fflate';
import type { Cell, Sheet } from 'hucre';
import { HucreError } from 'hucre';
import { readXlsx as readFile } from 'hucre/xlsx';
import { absolute, addressOf, cellName, columnName, isAddress, rectOf } from '../sheets/address';
import type { Book, BookCell, BookSheet, CellNote, PrintSetup } from '../sheets/book';
import { checkBounds, READ_AREA } from './bounds';
import { showConditionals } from './conditional';
import { damaged, XlsxError } from './error';
import { type ShownName, showNames } from './names';
import { notesPart, openParts, workbookParts } from './parts';
import { type Context, showCell } from './show';
import { storedNumbers } from './stored';
import { showText } from './text';
import { showValidation } from './validation';
import { checkWhole, poolsOf } from './whole';
import { elements } from './xml';

/**
 * The bytes of an .xlsx file, from any hand → a workbook. What a Book does not know (charts, pictures, tables,
 * further rules) is left out. Reads at most 16 MB and a bounded area of each sheet.
 *
 * @throws XlsxError `damaged`, `big`, `macros`, `locked` or `format`, in words for the person who chose the file.
 */
export async function readXlsx(bytes: Uint8Array): Promise<Book> {
  const parts = openParts(bytes);
  const { xml, sheets, sharedStrings, styles } = workbookParts(parts);
  checkBounds(sheets);
  checkWhole(sheets, poolsOf(sharedStrings, styles));
  const notes = sheets.map((sheet) => elements(notesPart(parts, sheet) ?? '', 'comment').length);
  const worksheets = sheets.filter((sheet) => sheet.xml !== undefined);
  // Packed anew, so that the library sees nothing but what was unpacked and measured.
  const measured = zipSync(Object.fromEntries(parts), { level: 0 });
  const file = await readFile(measured, {
    readStyles: true,
    range: READ_AREA,
    sheets: worksheets.map(({ name }) => name),
  }).catch((cause: unknown) => {
    if (cause instanceof XlsxError) throw cause;
    if (cause instanceof HucreError || cause instanceof RangeError || cause instanceof TypeError) {
      throw damaged(`its contents cannot be read (${cause.message})`, { cause });
    }
    throw cause;
  });
  if (file.sheets.length === 0) throw damaged('it has no worksheet');
  if (file.sheets.length !== worksheets.length) throw damaged('its sheets cannot be told apart');
  const names = showNames(xml);
  const stray = names.find(({ sheet }) => sheet !== undefined && sheets[sheet] === undefined);
  if (stray) throw damaged(`its name ${stray.name} belongs to a sheet that is not there`);
  const context = {
    theme: file.themeColors ?? [],
    dayShift: file.dateSystem === '1904' ? DAYS_TO_1904 : 0,
  };
  const active = sheets[file.activeSheet ?? 0]?.name;
  return {
    sheets: file.sheets.map((sheet) => {
      const at = sheets.findIndex(({ name }) => name === sheet.name);
      const own = names.filter((name) => name.sheet === at);
      const stored = once(() => storedNumbers(sheets[at]?.xml ?? ''));
      const shown = showSheet(sheet, own, { ...context, stored });
      if (shown.notes.length !== notes[at])
        throw damaged(`a note of its sheet "${sheet.name}" does not say which cell it is at`);
      return shown;
    }),
    names: plainNames(names.filter((name) => name.sheet === undefined)),
    ...(active === undefined ? {} : { active }),
  };
}

/** Computes on the first call and remembers. */
function once<T>(compute: () => T): () => T {
  let kept: { value: T } | undefined;
  return () => {
    kept ??= { value: compute() };
    return kept.value;
  };
}

/** Days between 1 January 1904 and Excel's usual day 0. */
const DAYS_TO_1904 = 1462;

function showSheet(sheet: Sheet, names: readonly ShownName[], context: Context): BookSheet {
  const { cells, notes } = showCells(sheet, context);
  const { autoFilter, freezePane, protection, view } = sheet;
  const print = showPrint(sheet, names);
  return {
    name: sheet.name,
    visibility: sheet.veryHidden ? 'veryHidden' : sheet.hidden ? 'hidden' : 'visible',
    cells,
    names: plainNames(names),
    validations: (sheet.dataValidations ?? []).flatMap((rule) => showValidation(rule, sheet.name)),
    ...showConditionals(sheet.conditionalRules ?? [], context.theme, sheet.name),
    notes,
    merges: (sheet.merges ?? []).map(({ startRow, startCol, endRow, endCol }) =>
      addressOf({
        row: startRow,
        column: startCol,
        rows: endRow - startRow + 1,
        columns: endCol - startCol + 1,
      }),
    ),
    columns: showColumns(
      sheet.columns ?? [],
      sheet.rows.reduce((most, row) => Math.max(most, row.length), 0),
    ),
    rows: Object.fromEntries(
      [...(sheet.rowDefs ?? [])].flatMap(([row, { height, hidden }]) => {
        const shown = hidden ? 0 : height;
        return shown === undefined ? [] : [[row + 1, shown]];
      }),
    ),
    isProtected: protection !== undefined && protection.sheet === true,
    ...(freezePane ? { freeze: { rows: freezePane.rows ?? 0, columns: freezePane.columns ?? 0 } } : {}),
    ...(autoFilter ? { filter: { range: autoFilter.range, sorts: protection?.sort === true } } : {}),
    gridlines: view?.showGridLines !== false,
    ...(print ? { print } : {}),
  };
}

function showCells(sheet: Sheet, context: Context): { cells: Record<string, BookCell>; notes: CellNote[] } {
  const cells: Record<string, BookCell> = {};
  const notes: CellNote[] = [];
  const masters = new Map<number, { at: string; cell: Cell }>();
  for (const [key, cell] of sheet.cells ?? []) {
    if (cell.formulaSharedIndex !== undefined && cell.formula) {
      masters.set(cell.formulaSharedIndex, { at: placeOf(key), cell });
    }
  }
  sheet.rows.forEach((values, row) => {
    values.forEach((value, column) => {
      const at = cellName(row, column);
      const cell = sheet.cells?.get(`${row},${column}`);
      const shown = showCell(at, value, cell, masters, context);
      if (shown) cells[at] = shown;
    });
  });
  for (const [key, { comment }] of sheet.cells ?? []) {
    if (comment) notes.push({ at: placeOf(key), text: showText(comment.text) });
  }
  return { cells, notes: inReadingOrder(notes) };
}

/** The library's "row,column", counted from 0 → an address. */
function placeOf(key: string): string {
  const [row = 0, column = 0] = key.split(',').map(Number);
  const at = Number.isSafeInteger(row) && Number.isSafeInteger(column) ? cellName(row, column) : key;
  if (!isAddress(at)) throw damaged('a note or a formula stands in a place that is no cell');
  return at;
}

function inReadingOrder(notes: readonly CellNote[]): CellNote[] {
  const placed = notes.map((note) => ({ note, ...rectOf(note.at) }));
  return placed.sort((a, b) => a.row - b.row || a.column - b.column).map(({ note }) => note);
}

/** @param filled how many columns hold anything */
function showColumns(
  columns: readonly { width?: number; hidden?: boolean }[],
  filled: number,
): Record<string, number> {
  const widths = columns.map(({ width, hidden }) => (hidden ? 0 : width));
  // A width that runs to the last column of the sheet is its default, not that of a column.
  let used = widths.length;
  const last = widths[16383];
  const least = last === 0 ? filled : 0;
  while (last !== undefined && used > least && widths[used - 1] === last) used--;
  return Object.fromEntries(
    widths.slice(0, used).flatMap((width, at) => (width === undefined ? [] : [[columnName(at), width]])),
  );
}

/** Names that Excel keeps for itself (print area, filter) are no names of the workbook. */
function plainNames(names: readonly ShownName[]): BookSheet['names'] {
  return names.filter(({ name }) => !name.startsWith('_xlnm.')).map(({ sheet, ...name }) => name);
}

const TITLE_ROWS = /!\$?([0-9]+):\$?([0-9]+)$/;
/** Columns come before rows where a name says both. */
const TITLE_COLUMNS = /!\$?([A-Z]{1,3}):\$?([A-Z]{1,3})(?:,|$)/;
const AREA = /\$?[A-Z]{1,3}\$?[0-9]+(?::\$?[A-Z]{1,3}\$?[0-9]+)?$/;

function showPrint(
  { pageSetup, rowBreaks = [], colBreaks = [] }: Sheet,
  names: readonly ShownName[],
): PrintSetup | undefined {
  const refersTo = names.find(({ name }) => name === '_xlnm.Print_Area')?.refersTo;
  const area = refersTo && AREA.exec(refersTo)?.[0];
  if (!area) return undefined;
  const repeated = names.find(({ name }) => name === '_xlnm.Print_Titles')?.refersTo ?? '';
  const [titles, titleColumns] = [TITLE_ROWS.exec(repeated), TITLE_COLUMNS.exec(repeated)];
  const isFitted = pageSetup?.fitToPage === true;
  return {
    area: addressOf(rectOf(absolute(area))),
    orientation: pageSetup?.orientation ?? 'portrait',
    wide: isFitted ? (pageSetup.fitToWidth ?? 1) : 0,
    tall: isFitted ? (pageSetup.fitToHeight ?? 1) : 0,
    ...(isFitted || pageSetup?.scale === undefined ? {} : { scale: pageSetup.scale }),
    ...(titles ? { titles: `${titles[1]}:${titles[2]}` } : {}),
    ...(titleColumns ? { titleColumns: `${titleColumns[1]}:${titleColumns[2]}` } : {}),
    ...(rowBreaks.length > 0 ? { breaks: rowBreaks.map((row) => row + 2) } : {}),
    ...(colBreaks.length > 0 ? { columnBreaks: colBreaks.map((column) => columnName(column + 1)) } : {}),
  };
}
