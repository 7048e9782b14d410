import type { ICellData } from '@univerjs/core';
import { type CellValue, isErrorKind } from '../../sheets/book';
import type { Engine } from './engine';
import { changesContents, richText, TYPE } from './input';
import { rectOfRange } from './port';
import type { Sheet } from './sheet';
import { isSheetName } from './sheetname';
import { formulaRefusal, lockRefusal, plain, previous, validationRefusal } from './typing';
import { validationType } from './validity';

/** What a protected sheet does not let a person do at all, and what granting it is called. */
const STRUCTURE: Readonly<Record<string, string>> = {
  'sheet.mutation.insert-row': 'allowInsertRows',
  'sheet.mutation.remove-rows': 'allowDeleteRows',
  'sheet.mutation.insert-col': 'allowInsertColumns',
  'sheet.mutation.remove-col': 'allowDeleteColumns',
  'sheet.mutation.move-rows': '',
  'sheet.mutation.move-columns': '',
  'sheet.mutation.move-range': '',
  'sheet.mutation.reorder-range': '',
  'sheet.mutation.add-worksheet-merge': '',
  'sheet.mutation.remove-worksheet-merge': '',
  'sheet.mutation.set-worksheet-col-width': 'allowFormatColumns',
  'sheet.mutation.set-worksheet-row-height': 'allowFormatRows',
};

interface Params {
  readonly name?: string;
  readonly subUnitId?: string;
  /** The command that a change is part of. */
  readonly trigger?: string;
  readonly cellValue?: Record<number, Record<number, ICellData | null>>;
}

/** Typing and choosing from a list. What is pasted or filled in, Excel does not validate. */
const TYPED = 'sheet.command.set-range-values';

/**
 * Refuses what a person does in the shown spreadsheet where Excel would refuse it: locked cells of a protected
 * sheet, values that a validation stops, rows and columns of a protected sheet. A validation that is a formula
 * can be judged only once the value is in its cell; what it stops is taken out again. `onRefused` gets the
 * reason. Returns how to stop guarding.
 */
export function guardUserEdits(engine: Engine, onRefused: (message: string) => void): () => void {
  const { api, port } = engine;
  const watch = api.addEvent(api.Event.BeforeCommandExecute, (event) => {
    if (port.isOurs || event.options?.onlyLocal) return;
    const params = (event.params ?? {}) as Params;
    const sheet = params.subUnitId === undefined ? undefined : engine.sheetById(params.subUnitId);
    const reason = sheet && refusal(sheet, event.id, params);
    if (reason === undefined) {
      if (sheet)
        for (const cell of underFormulas(sheet, event.id, params)) void judge(sheet, cell, onRefused);
      return;
    }
    event.cancel = true;
    onRefused(reason);
  });
  return () => watch.dispose();
}

interface Before {
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  readonly formula: string | undefined;
}

/** Cells about to change whose validation is a formula, with what they hold now. */
function underFormulas(sheet: Sheet, id: string, { cellValue, trigger }: Params): Before[] {
  if (id !== 'sheet.mutation.set-range-values' || !cellValue || trigger !== TYPED) return [];
  return Object.entries(cellValue).flatMap(([r, line]) =>
    Object.entries(line).flatMap(([c, cell]) => {
      const [row, column] = [Number(r), Number(c)];
      const item = changesContents(cell) ? sheet.validationAt(row, column) : undefined;
      if (!item || validationType(item.rule) !== 'Custom' || cell?.f || cell?.si) return [];
      return [{ row, column, value: sheet.value(row, column), formula: sheet.formula(row, column) }];
    }),
  );
}

/** Takes a value out again that its validation's formula stops, unless somebody has changed it since. */
async function judge(sheet: Sheet, before: Before, onRefused: (message: string) => void): Promise<void> {
  const { row, column } = before;
  await sheet.engine.calculation.settled();
  const value = sheet.value(row, column);
  const refused = await formulaRefusal(sheet, row, column);
  if (refused?.style !== 'Stop' || sheet.value(row, column) !== value) return;
  const rect = { row, column, rows: 1, columns: 1 };
  sheet.enter(rect, () => previous(before.value, before.formula));
  sheet.changed(rect, 'Unknown', plain(value));
  onRefused(refused.message);
}

function refusal(sheet: Sheet, id: string, { cellValue, name, trigger }: Params): string | undefined {
  if (id === 'sheet.mutation.set-worksheet-name' && name !== undefined) return nameRefusal(sheet, name);
  const option = STRUCTURE[id];
  if (option !== undefined && sheet.protection && sheet.protection.options[option] !== true)
    return `The sheet "${sheet.name}" is protected. Unprotect it to change its rows, columns or layout.`;
  if (id !== 'sheet.mutation.set-range-values' || !cellValue) return undefined;
  for (const [r, line] of Object.entries(cellValue)) {
    for (const [c, cell] of Object.entries(line)) {
      const [row, column] = [Number(r), Number(c)];
      const rect = rectOfRange({ startRow: row, startColumn: column, endRow: row, endColumn: column });
      const isContents = changesContents(cell);
      if (!isContents && sheet.protection && sheet.protection.options.allowFormatCells !== true)
        return `The sheet "${sheet.name}" is protected. Unprotect it to change how cells look.`;
      const reason = isContents
        ? (lockRefusal(sheet, rect) ?? (trigger === TYPED ? stopped(sheet, row, column, cell) : undefined))
        : undefined;
      if (reason !== undefined) return reason;
    }
  }
  return undefined;
}

/** Excel's rules for sheet names also bind a person. */
function nameRefusal(sheet: Sheet, name: string): string | undefined {
  const holder = sheet.engine.sheetByName(name);
  if (holder && holder !== sheet) return `A sheet is called "${holder.name}" already.`;
  if (isSheetName(name)) return undefined;
  return `"${name}" cannot be a sheet name: 1 to 31 characters, none of / \\ ? * : [ ], no apostrophe at either end.`;
}
function stopped(sheet: Sheet, row: number, column: number, cell: ICellData | null): string | undefined {
  const refused = validationRefusal(sheet, row, column, typedValue(cell));
  return refused?.style === 'Stop' ? refused.message : undefined;
}
/** The value a person has typed, from the engine's cell; undefined for a formula, whose result is not known yet. */
function typedValue(cell: ICellData | null): CellValue | undefined {
  if (cell?.f || cell?.si) return undefined;
  const text = richText(cell) ?? cell?.v;
  if (text === undefined || text === null || text === '') return null;
  if (cell?.t === TYPE.boolean) return Boolean(text);
  return isErrorKind(text) ? { error: text } : (text as CellValue);
}
