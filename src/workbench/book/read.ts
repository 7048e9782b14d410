import type { ICellData } from '@univerjs/core';
import { columnIndex, rectOf } from '../../sheets/address';
import type { Book, BookCell, BookSheet, DefinedName } from '../../sheets/book';
import { callsOurs } from '../../sheets/calls';
import { withIntersection } from '../../sheets/intersection';
import type { Engine } from '../engine/engine';
import { cellOf, type Entry } from '../engine/input';
import type { CellTable } from '../engine/port';
import { contains, requireAddress } from '../engine/reference';
import { newPage, type ProtectionOptions } from '../engine/rules';
import type { Sheet } from '../engine/sheet';
import { toEngineStyle } from '../engine/styles';
import { ApiError } from '../errors';
import { POINTS_PER_PIXEL, pixelsOf } from './measures';
import { fromValidation } from './validation';

/**
 * Puts a book in the place of everything the workbook holds. Resolves when it is calculated, with what could
 * not be taken over, in words: a name from another program that Excel would not allow.
 */
export async function fromBook(engine: Engine, book: Book): Promise<readonly string[]> {
  const problems: string[] = [];
  const define = ({ name, refersTo, comment, hidden }: DefinedName, sheet: Sheet | undefined) => {
    try {
      engine.formulas.define(name, sheet?.id, refersTo, comment, hidden);
    } catch (error) {
      if (!(error instanceof ApiError)) throw error;
      problems.push(`The name "${name}" was left out: ${error.message}`);
    }
  };
  if (book.sheets.length === 0) throw new Error('A workbook has at least one sheet.');
  for (const name of [...engine.names.of(undefined)]) engine.formulas.remove(name);
  const old = engine.sheets();
  // Their names must be free for the new ones.
  for (const [index, sheet] of old.entries()) engine.renameSheet(sheet, `\u0000${index}`);
  const pairs = book.sheets.map((item) => ({ item, sheet: engine.addSheet(item.name) }));
  engine.activate(pairs[0]!.sheet);
  for (const sheet of old) engine.deleteSheet(sheet);
  for (const name of book.names) define(name, undefined);
  for (const { item, sheet } of pairs) for (const name of item.names) define(name, sheet);
  // Names that are new hold up the engine: it looks for every one of them in every formula. It takes them in first.
  await engine.calculation.settled();
  for (const { item, sheet } of pairs) fillSheet(engine, sheet, item);
  const active = pairs.find(({ item }) => item.name === book.active) ?? pairs[0]!;
  if (active.sheet.visibility === 'Visible') engine.activate(active.sheet);
  await engine.calculation.settled();
  return problems;
}

function fillSheet(engine: Engine, sheet: Sheet, item: BookSheet): void {
  writeCells(sheet, item.cells);
  sheet.validations = item.validations.map(fromValidation);
  sheet.formats = [
    ...item.scales.map(({ range, low, middle, high }) => ({
      id: engine.nextId(),
      range: rectOf(range),
      type: 'ColorScale' as const,
      stopIfTrue: false,
      look: {},
      scale: {
        minimum: { type: 'LowestValue', color: low },
        ...(middle ? { midpoint: { type: 'Percentile', formula: '50', color: middle } } : {}),
        maximum: { type: 'HighestValue', color: high },
      },
    })),
    ...item.alerts.map(({ range, begins, fill, color }) => ({
      id: engine.nextId(),
      range: rectOf(range),
      type: 'ContainsText' as const,
      stopIfTrue: false,
      look: { fill, color },
      text: { operator: 'BeginsWith' as const, text: begins },
    })),
  ];
  for (const { at, text } of item.notes) {
    const { row, column } = rectOf(at);
    sheet.notes.set(row, column, text);
  }
  for (const range of item.merges) sheet.merge(rectOf(range), false);
  for (const [letter, width] of Object.entries(item.columns))
    sheet.setColumnWidth({ row: 0, column: columnIndex(letter), rows: 1, columns: 1 }, pixelsOf(width));
  for (const [row, height] of Object.entries(item.rows))
    sheet.setRowHeight({ row: Number(row) - 1, column: 0, rows: 1, columns: 1 }, height / POINTS_PER_PIXEL);
  if (item.freeze) sheet.freeze(item.freeze.rows, item.freeze.columns);
  engine.port.ours(() => sheet.shown.setHiddenGridlines(!item.gridlines));
  if (item.print) {
    const {
      area,
      orientation,
      wide,
      tall,
      scale,
      titles,
      titleColumns,
      breaks = [],
      columnBreaks = [],
    } = item.print;
    sheet.page = {
      ...newPage(),
      area: rectOf(area),
      orientation: orientation === 'landscape' ? 'Landscape' : 'Portrait',
      zoom: {
        ...(scale ? { scale } : {}),
        ...(wide ? { horizontalFitToPages: wide } : {}),
        ...(tall ? { verticalFitToPages: tall } : {}),
      },
      ...(titles ? { titleRows: requireAddress(titles) } : {}),
      ...(titleColumns ? { titleColumns: requireAddress(titleColumns) } : {}),
      breaks: breaks.map((row) => row - 1),
      columnBreaks: columnBreaks.map(columnIndex),
    };
  }
  if (item.filter) sheet.filter = rectOf(item.filter.range);
  const options: ProtectionOptions = item.filter
    ? { allowAutoFilter: true, allowSort: item.filter.sorts }
    : {};
  engine.setProtection(sheet, item.isProtected ? { options } : undefined);
  if (item.visibility !== 'visible')
    engine.setVisibility(sheet, item.visibility === 'hidden' ? 'Hidden' : 'VeryHidden');
  engine.looksChanged(sheet);
}

/** All cells in one write. What an array result fills is left to the calculation. */
function writeCells(sheet: Sheet, cells: BookSheet['cells']): void {
  const spills = Object.values(cells).flatMap(({ spill }) => (spill ? [rectOf(spill)] : []));
  const table: CellTable = {};
  let [bottom, right] = [0, 0];
  for (const [at, cell] of Object.entries(cells)) {
    const { row, column } = rectOf(at);
    [bottom, right] = [Math.max(bottom, row), Math.max(right, column)];
    const isSpilled = cell.formula === undefined && spills.some((rect) => contains(rect, row, column));
    const contents: ICellData = isSpilled
      ? {}
      : cellOf(entryOf(cell), (formula) => sheet.engine.encode(formula, sheet.id));
    const line = table[row] ?? {};
    line[column] = cell.style ? { ...contents, s: toEngineStyle(cell.style) } : contents;
    table[row] = line;
    if (cell.style?.locked === false) sheet.unlocked.set(row, column, true);
    // What a file holds plainly, and not as an array formula, is shown so; our calls are held as arrays.
    if (cell.formula !== undefined && !cell.spill && !callsOurs(cell.formula))
      sheet.spell(row, column, cell.formula, withIntersection(cell.formula));
  }
  sheet.engine.port.reach(sheet.id, bottom, right);
  if (Object.keys(table).length > 0) sheet.engine.port.write(sheet.id, table);
}
function entryOf({ value, formula }: BookCell): Entry {
  if (formula !== undefined) return { kind: 'formula', formula };
  if (value === null) return { kind: 'empty' };
  if (typeof value === 'object') return { kind: 'value', value: value.error };
  return { kind: 'value', value, forced: typeof value === 'string' };
}
