import type { Cell } from 'hucre';
import { rectOf } from '../sheets/address';
import type { BookCell, BookSheet, CellValue, ErrorKind } from '../sheets/book';
import { callsOurs } from '../sheets/calls';
import { unwritable } from './error';
import { storeFormula } from './formula';
import { storeStyle } from './style';
import { storeText } from './text';

/** Excel's limits, in characters. */
const TEXT_MAX = 32767;
const FORMULA_MAX = 8192;

/** Errors that the file format names (ECMA-376-1, 18.17.3); the newer ones are stored as #VALUE! */
const STORED_ERRORS: ReadonlySet<string> = new Set<ErrorKind>([
  '#VALUE!',
  '#N/A',
  '#DIV/0!',
  '#NUM!',
  '#NULL!',
  '#NAME?',
  '#REF!',
]);
/** An error as a file tells it. */
export function storedKind(kind: ErrorKind): ErrorKind {
  return STORED_ERRORS.has(kind) ? kind : '#VALUE!';
}
/** Texts that the library would take for an error value. */
const READS_AS_ERROR = /^#(?:VALUE!|REF!|N\/A|NAME\?|NULL!|DIV\/0!|NUM!|GETTING_DATA|SPILL!|CALC!)$/;

export interface StoredCells {
  /** By "row,column", counted from 0, as the library wants them. */
  readonly cells: Map<string, Partial<Cell>>;
  /** Addresses of formulas whose cached value is an error: the library writes it as a text. */
  readonly failed: readonly string[];
}

/**
 * Cells and notes of a sheet. Without cached values every program must calculate before it shows anything,
 * which is what an independent recalculation wants.
 */
export function storeCells(sheet: BookSheet, cachedValues: boolean): StoredCells {
  const cells = new Map<string, Partial<Cell>>();
  const failed: string[] = [];
  const computed = cachedValues ? new Set<string>() : spilledInto(sheet);
  for (const [at, cell] of Object.entries(sheet.cells)) {
    const { row, column } = rectOf(at);
    const where = `${sheet.name}, ${at}`;
    const isFormula = cell.formula !== undefined;
    const value = isFormula ? undefined : storeValue(computed.has(at) ? null : cell.value, where);
    const style = cell.style && storeStyle(cell.style);
    cells.set(`${row},${column}`, {
      ...value,
      ...(isFormula ? storeFormulaCell(cell, at, cachedValues, where) : {}),
      ...(style === undefined ? {} : { style }),
    });
    if (isFormula && cachedValues && isError(cell.value)) failed.push(at);
  }
  for (const { at, text } of sheet.notes) {
    const { row, column } = rectOf(at);
    const key = `${row},${column}`;
    cells.set(key, { ...cells.get(key), comment: { text: storeText(text) } });
  }
  return { cells, failed };
}

function storeFormulaCell(cell: BookCell, at: string, cachedValues: boolean, where: string): Partial<Cell> {
  const formula = storeFormula(cell.formula!);
  if (formula.length > FORMULA_MAX) {
    throw unwritable(
      `The formula in ${where} is longer than ${FORMULA_MAX} characters.`,
      'Split the formula.',
    );
  }
  // Excel stores a call of a custom function as a dynamic array even if it fills one cell; stored plainly it
  // would come back as =@LIGHT.…, and a spilled result would be cut to its first cell.
  const isArray = cell.spill !== undefined || callsOurs(cell.formula!);
  const cached = cachedValues ? storeValue(cell.value, where).value : undefined;
  return {
    formula,
    ...(cached === undefined || cached === null ? {} : { formulaResult: cached }),
    ...(isArray ? { formulaType: 'array', formulaRef: cell.spill ?? at, formulaDynamic: true } : {}),
  };
}

function storeValue(value: CellValue, where: string): Pick<Partial<Cell>, 'value' | 'richText'> {
  if (isError(value)) return { value: storedKind(value.error) };
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw unwritable(`The value in ${where} is not a number that a cell can hold.`, 'Correct the cell.');
  }
  if (typeof value !== 'string') return { value };
  if (value.length > TEXT_MAX) {
    throw unwritable(
      `The text in ${where} has ${value.length} characters; a cell takes ${TEXT_MAX}.`,
      'Shorten it.',
    );
  }
  const text = storeText(value);
  return READS_AS_ERROR.test(text) ? { value: text, richText: [{ text }] } : { value: text };
}

function isError(value: CellValue): value is Extract<CellValue, { error: ErrorKind }> {
  return typeof value === 'object' && value !== null;
}

/** Cells that an array formula of another cell fills. */
function spilledInto(sheet: BookSheet): Set<string> {
  const filled = new Set<string>();
  const spills = Object.entries(sheet.cells).flatMap(([at, { spill }]) =>
    spill ? [{ at, ...rectOf(spill) }] : [],
  );
  for (const at of Object.keys(sheet.cells)) {
    const { row, column } = rectOf(at);
    const isInside = spills.some(
      (spill) =>
        spill.at !== at &&
        row >= spill.row &&
        row < spill.row + spill.rows &&
        column >= spill.column &&
        column < spill.column + spill.columns,
    );
    if (isInside) filled.add(at);
  }
  return filled;
}
