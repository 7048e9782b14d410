import type { ICellData, IRange } from '@univerjs/core';
import { completeCopy } from './copy';
import type { Engine } from './engine';
import { changesContents } from './input';
import { rectOfRange, WHOLE_WORKBOOK } from './port';
import { around, formatAddress } from './reference';
import { shiftSheet } from './shift';

interface CommandParams {
  readonly name?: string;
  readonly formulaOrRefString?: string;
  readonly localSheetId?: string;
  readonly subUnitId?: string;
  readonly cellValue?: ChangedCells;
  readonly range?: IRange;
  readonly sheet?: { id: string };
  readonly selections?: readonly { range: IRange }[];
}

/** Rows and columns that come and go, and what the API calls it. */
const STRUCTURE = {
  'sheet.mutation.insert-row': 'RowInserted',
  'sheet.mutation.remove-rows': 'RowDeleted',
  'sheet.mutation.insert-col': 'ColumnInserted',
  'sheet.mutation.remove-col': 'ColumnDeleted',
} as const;

/** Follows what a person does in the shown spreadsheet: keeps names and our own data in step, tells listeners. */
export function followPeople(engine: Engine): void {
  const { port, events } = engine;
  let isRefreshDue = false;
  let inserted: string | undefined;
  // After the whole command: the engine moves formulas and names in further steps of it.
  const soon = (work: () => void) => queueMicrotask(work);
  const refreshSoon = () => {
    if (isRefreshDue) return;
    isRefreshDue = true;
    soon(() => {
      isRefreshDue = false;
      engine.formulas.refresh();
    });
  };
  const named = ({ name, formulaOrRefString = '', localSheetId }: CommandParams) => {
    if (name === undefined) return;
    const owner = localSheetId === WHOLE_WORKBOOK ? undefined : localSheetId;
    if (engine.formulas.noteMoved(name, formulaOrRefString)) refreshSoon();
    else soon(() => engine.formulas.adoptName(name, formulaOrRefString, owner));
  };
  const copied = (from: string, to: string | undefined) => {
    const source = engine.sheetById(from || port.workbook.getActiveSheet().getSheetId());
    const copy = to === undefined ? undefined : engine.sheetById(to);
    if (source && copy && source !== copy) soon(() => completeCopy(engine, source, copy));
  };
  port.api.onCommandExecuted(({ id, params: anyParams }, options) => {
    const params = (anyParams ?? {}) as CommandParams;
    const sheet = params.subUnitId ?? '';
    if (id in STRUCTURE && params.range) {
      const changeType = STRUCTURE[id as keyof typeof STRUCTURE];
      const rect = rectOfRange(params.range);
      const owner = engine.sheetById(sheet);
      if (owner) shiftSheet(owner, changeType, rect);
      refreshSoon();
      events.emit({
        kind: 'changed',
        sheet,
        address: formatAddress(rect),
        changeType,
        trigger: port.isOurs ? 'ThisLocalAddin' : 'Unknown',
      });
      return;
    }
    if (port.isOurs || options?.onlyLocal) return;
    switch (id) {
      case 'sheet.mutation.set-range-values':
        if (params.cellValue && hasContents(params.cellValue)) edited(engine, sheet, params.cellValue);
        break;
      case 'sheet.mutation.set-worksheet-name':
        refreshSoon();
        break;
      case 'sheet.mutation.insert-sheet':
        inserted = params.sheet?.id;
        if (inserted !== undefined) soon(() => engine.sheetCame(params.sheet!.id));
        break;
      case 'sheet.command.copy-sheet':
        copied(sheet, inserted);
        break;
      case 'sheet.mutation.remove-sheet':
        soon(() => engine.sheetGone(sheet));
        break;
      case 'formula.mutation.set-defined-name':
        named(params);
        break;
      case 'sheet.operation.set-worksheet-active':
        engine.noteActive();
        break;
    }
  });
  port.api.onCommandExecuted(({ id, params: anyParams }) => {
    const params = (anyParams ?? {}) as CommandParams;
    if (id !== 'sheet.operation.set-selections' || !params.subUnitId) return;
    const address = (params.selections ?? []).map(({ range }) => formatAddress(rectOfRange(range))).join(',');
    if (address) events.emit({ kind: 'selected', sheet: params.subUnitId, address });
  });
}

type ChangedCells = Record<number, Record<number, ICellData | null>>;

function hasContents(table: ChangedCells): boolean {
  return Object.values(table).some((line) => Object.values(line).some(changesContents));
}

function edited(engine: Engine, sheet: string, table: ChangedCells): void {
  const cells = Object.entries(table).flatMap(([row, line]) =>
    Object.keys(line).map((column) => [Number(row), Number(column)] as const),
  );
  for (const [row, column] of cells) engine.formulas.adopt(sheet, row, column);
  const rect = around(cells);
  if (!rect) return;
  engine.events.emit({
    kind: 'changed',
    sheet,
    address: formatAddress(rect),
    changeType: 'RangeEdited',
    trigger: 'Unknown',
  });
}
