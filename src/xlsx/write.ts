import type { WriteSheet } from 'hucre';
import { HucreError } from 'hucre';
import { writeXlsx as writeFile } from 'hucre/xlsx';
import { columnIndex, columnName, rectOf } from '../sheets/address';
import type { Book, BookSheet } from '../sheets/book';
import { MARGINS } from '../sheets/paper';
import { FOOTER } from '../sheets/style';
import { type StoredCells, storeCells } from './cells';
import { storeCharts } from './charts';
import { storeConditionals } from './conditional';
import { unwritable } from './error';
import { storeNames } from './names';
import { patch } from './patch';
import { DEFAULT_FONT } from './style';
import { storeValidation } from './validation';

export interface WriteOptions {
  /** False leaves the results of formulas out, so that any program has to calculate them. Default true. */
  readonly cachedValues?: boolean;
  /** True asks programs to recalculate the file when they open it although results are stored. */
  readonly recalculate?: boolean;
}

/**
 * A workbook → the bytes of an .xlsx file.
 *
 * With cached values the file asks no program to recalculate it: where the add-in is absent, the results of its
 * functions stay readable instead of turning into #NAME?. Two things a Book knows are not in the file: the
 * message behind an error, and the kinds #SPILL!, #CALC! and #BUSY!, which become #VALUE! as in Excel's files.
 *
 * @throws XlsxError `unwritable` where a file cannot hold what the Book says.
 */
export async function writeXlsx(book: Book, options: WriteOptions = {}): Promise<Uint8Array> {
  const cachedValues = options.cachedValues ?? true;
  const active = activeSheet(book);
  const names = storeNames(book);
  const stored = book.sheets.map((sheet) => storeCells(sheet, cachedValues));
  const bytes = await writeFile({
    sheets: book.sheets.map((sheet, at) => storeSheet(sheet, stored[at]!)),
    namedRanges: names.map(({ isHidden, ...name }) => name),
    defaultFont: DEFAULT_FONT,
    activeSheet: active,
  }).catch((cause: unknown) => {
    if (!(cause instanceof HucreError)) throw cause;
    throw unwritable(`The workbook cannot be written: ${cause.message}.`, 'Correct it and save again.', {
      cause,
    });
  });
  return patch(bytes, {
    hiddenNames: names.flatMap(({ isHidden }, at) => (isHidden ? [at] : [])),
    activeSheet: active,
    failed: stored.map(({ failed }) => failed),
    notes: book.sheets.map(({ notes }) => Object.fromEntries(notes.map(({ at, text }) => [at, text.length]))),
    recalculate: options.recalculate ?? !cachedValues,
  });
}

function activeSheet({ sheets, active }: Book): number {
  const wanted = sheets.findIndex(({ name, visibility }) => name === active && visibility === 'visible');
  const found = wanted >= 0 ? wanted : sheets.findIndex(({ visibility }) => visibility === 'visible');
  if (found < 0) throw unwritable('A workbook needs at least one visible sheet.', 'Show one of its sheets.');
  return found;
}

function storeSheet(sheet: BookSheet, { cells }: StoredCells): WriteSheet {
  const { freeze, filter, print } = sheet;
  return {
    name: sheet.name,
    // Empty rows as far as heights are set: the library writes no height below the last row it knows.
    rows: Array.from({ length: Math.max(0, ...Object.keys(sheet.rows).map(Number)) }, () => []),
    cells,
    columns: storeColumns(sheet.columns),
    rowDefs: new Map(
      Object.entries(sheet.rows).map(([row, height]) => [
        Number(row) - 1,
        height === 0 ? { hidden: true } : { height },
      ]),
    ),
    merges: sheet.merges.map((range) => {
      const { row, column, rows, columns } = rectOf(range);
      return { startRow: row, startCol: column, endRow: row + rows - 1, endCol: column + columns - 1 };
    }),
    dataValidations: sheet.validations.map(storeValidation),
    conditionalRules: storeConditionals(sheet),
    ...(sheet.charts ? { charts: storeCharts(sheet.name, sheet.charts) } : {}),
    view: { showGridLines: sheet.gridlines },
    ...(sheet.visibility === 'hidden' ? { hidden: true } : {}),
    ...(sheet.visibility === 'veryHidden' ? { veryHidden: true } : {}),
    ...(freeze && (freeze.rows > 0 || freeze.columns > 0) ? { freezePane: freeze } : {}),
    ...(filter ? { autoFilter: { range: filter.range } } : {}),
    ...(sheet.isProtected
      ? {
          protection: {
            ...{ sheet: true, objects: true, scenarios: true, formatColumns: true, formatRows: true },
            ...(filter ? { autoFilter: true, sort: filter.sorts } : {}),
          },
        }
      : {}),
    ...(print
      ? {
          pageSetup: {
            paperSize: 'a4',
            orientation: print.orientation,
            ...(print.scale === undefined
              ? { fitToPage: true, fitToWidth: print.wide, fitToHeight: print.tall }
              : { scale: print.scale }),
            margins: MARGINS,
          },
          headerFooter: { oddFooter: `&L${FOOTER.left}&C${FOOTER.center}&R${FOOTER.right}` },
          // The library takes the row above the break, counted from 0.
          ...(print.breaks ? { rowBreaks: print.breaks.map((row) => row - 2) } : {}),
          ...(print.columnBreaks
            ? { colBreaks: print.columnBreaks.map((letter) => columnIndex(letter) - 1) }
            : {}),
        }
      : {}),
  };
}

function storeColumns(widths: Readonly<Record<string, number>>): { width?: number; hidden?: true }[] {
  const last = Math.max(-1, ...Object.keys(widths).map(columnIndex));
  return Array.from({ length: last + 1 }, (_, at) => {
    const width = widths[columnName(at)];
    if (width === undefined) return {};
    return width === 0 ? { width, hidden: true } : { width };
  });
}
