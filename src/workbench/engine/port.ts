import type { ICellData, IRange, IStyleData } from '@univerjs/core';
import type { FUniver } from '@univerjs/core/facade';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import type { Rect } from '../../sheets/address';
import { STYLE_TRIGGER } from './calculation';

type Spills = Record<string, Record<number, Record<number, IRange>>>;
export type CellTable = Record<number, Record<number, ICellData>>;
interface ArrayResults {
  readonly arrayFormulaRange?: Record<string, Spills>;
  readonly arrayFormulaCellData?: Record<string, Record<string, CellTable>>;
}

/** The engine's word for the scope of a name that belongs to no sheet. */
export const WHOLE_WORKBOOK = 'AllDefaultWorkbook';

/** The few things asked of the embedded spreadsheet engine, with rows and columns from zero. */
export class Port {
  readonly workbook: FWorkbook;
  /** Array results: where each first cell spills to, by sheet, row and column. */
  #spills: Spills = {};
  /** What they put there, by sheet. */
  #spilled: Record<string, CellTable> = {};
  /** Where formulas that are shared by an id were last seen to stand, by sheet and id. */
  readonly #origins = new Map<string, { row: number; column: number }>();
  #depth = 0;

  constructor(readonly api: FUniver) {
    const workbook = api.getActiveWorkbook();
    if (!workbook) throw new Error('The spreadsheet engine has no workbook yet.');
    this.workbook = workbook;
    api.onCommandExecuted(({ id, params }) => {
      if (id !== 'formula.mutation.set-array-formula-data') return;
      const data = params as ArrayResults | undefined;
      this.#spills = data?.arrayFormulaRange?.[workbook.getId()] ?? {};
      this.#spilled = data?.arrayFormulaCellData?.[workbook.getId()] ?? {};
    });
  }

  /** True while a command of ours runs: what the engine then reports was not a person's doing. */
  get isOurs(): boolean {
    return this.#depth > 0;
  }
  ours<T>(work: () => T): T {
    this.#depth++;
    try {
      return work();
    } finally {
      this.#depth--;
    }
  }
  run(id: string, params: Record<string, unknown>): void {
    const done = this.ours(() =>
      this.api.syncExecuteCommand(id, { unitId: this.workbook.getId(), ...params }),
    );
    if (!done) throw new Error(`The spreadsheet engine refused "${id}".`);
  }

  /** In tab order. */
  sheetIds(): readonly string[] {
    return this.workbook.getWorkbook().getSheetOrders();
  }
  sheetName(id: string): string {
    return this.#core(id).getName();
  }
  #core(id: string) {
    const sheet = this.workbook.getWorkbook().getSheetBySheetId(id);
    if (!sheet) throw new Error(`The spreadsheet engine has no sheet "${id}".`);
    return sheet;
  }
  sheet(id: string): FWorksheet {
    const sheet = this.workbook.getSheetBySheetId(id);
    if (!sheet) throw new Error(`The spreadsheet engine has no sheet "${id}".`);
    return sheet;
  }

  write(sheet: string, cellValue: CellTable): void {
    this.run('sheet.mutation.set-range-values', { subUnitId: sheet, cellValue });
  }
  writeStyle(sheet: string, cellValue: CellTable): void {
    this.run('sheet.mutation.set-range-values', { subUnitId: sheet, cellValue, trigger: STYLE_TRIGGER });
  }
  /** With the formula that it has, also where it shares one with others. */
  cell(sheet: string, row: number, column: number): ICellData | undefined {
    const cell = this.stored(sheet, row, column);
    return cell?.si && !cell.f ? { ...cell, f: this.#sharedFormula(sheet, row, column, cell.si) } : cell;
  }
  /** As it is kept: of a shared formula the id alone. To write the formula out takes many times longer. */
  stored(sheet: string, row: number, column: number): ICellData | undefined {
    return this.#core(sheet).getCellMatrix().getValue(row, column) ?? undefined;
  }
  /**
   * A filled-down formula is kept once, at its origin, and shared by an id. The facade writes it out too, but looks
   * through the whole sheet for the origin each time it is asked.
   */
  #sharedFormula(sheet: string, row: number, column: number, id: string): string {
    const matrix = this.#core(sheet).getCellMatrix();
    const key = `${sheet} ${id}`;
    const holds = (at: { row: number; column: number } | undefined) => {
      const cell = at && matrix.getValue(at.row, at.column);
      return cell?.f && cell.si === id ? cell.f : undefined;
    };
    let formula = holds(this.#origins.get(key));
    if (!formula) {
      matrix.forValue((r, c, cell) => {
        if (cell?.f && cell.si) this.#origins.set(`${sheet} ${cell.si}`, { row: r, column: c });
      });
      formula = holds(this.#origins.get(key));
    }
    const origin = this.#origins.get(key);
    if (!formula || !origin) return '';
    return this.api.getFormula().moveFormulaRefOffset(formula, column - origin.column, row - origin.row);
  }
  /**
   * What an array result puts into a cell is kept apart from the cell itself. The facade's `getCellData` would answer
   * it as it is drawn: rounded by the number format, "3,078.1" as a text, once there is a screen.
   */
  spilled(sheet: string, row: number, column: number): ICellData | undefined {
    return this.#spilled[sheet]?.[row]?.[column] ?? undefined;
  }
  spill(sheet: string, row: number, column: number): Rect | undefined {
    const range = this.#spills[sheet]?.[row]?.[column];
    return range && rectOfRange(range);
  }
  *spills(sheet: string): Iterable<Rect> {
    for (const row of Object.values(this.#spills[sheet] ?? {})) {
      for (const range of Object.values(row)) if (range) yield rectOfRange(range);
    }
  }
  style(cell: ICellData | undefined): IStyleData {
    const style = cell && this.workbook.getWorkbook().getStyles().getStyleByCell(cell);
    return style ?? {};
  }
  /** Every stored cell, row by row. */
  *cells(sheet: string): Iterable<{ row: number; column: number; cell: ICellData }> {
    const matrix = this.#core(sheet).getCellMatrix();
    const found: { row: number; column: number; cell: ICellData }[] = [];
    matrix.forValue((row, column, cell) => {
      if (cell) found.push({ row, column, cell });
    });
    yield* found;
  }
  /** A shown sheet grows when something is written beyond its edge. */
  reach(id: string, row: number, column: number): void {
    const sheet = this.sheet(id);
    if (row >= sheet.getMaxRows()) this.ours(() => sheet.setRowCount(row + 1));
    if (column >= sheet.getMaxColumns()) this.ours(() => sheet.setColumnCount(column + 1));
  }

  /** The widths alone: heights of rows stay as they are. */
  setColumnWidths(id: string, column: number, columns: number, pixels: number): void {
    const range = { startRow: 0, endRow: this.sheet(id).getMaxRows() - 1 };
    this.run('sheet.mutation.set-worksheet-col-width', {
      subUnitId: id,
      ranges: [{ ...range, startColumn: column, endColumn: column + columns - 1 }],
      colWidth: pixels,
    });
  }

  defineName(name: string, refersTo: string, isHidden: boolean): void {
    this.run('formula.mutation.set-defined-name', {
      id: name,
      name,
      formulaOrRefString: refersTo,
      localSheetId: WHOLE_WORKBOOK,
      hidden: isHidden,
    });
  }
  removeName(name: string): void {
    this.run('formula.mutation.remove-defined-name', { id: name, name, formulaOrRefString: '' });
  }
  /** Takes away a name that was not defined by us: its id is not its name. */
  removeNameOf(name: string): void {
    this.ours(() => this.workbook.deleteDefinedName(name));
  }
  namedReference(name: string): string | undefined {
    return this.workbook.getDefinedName(name)?.getFormulaOrRefString();
  }
}

export function rangeOf({ row, column, rows, columns }: Rect): IRange {
  return { startRow: row, startColumn: column, endRow: row + rows - 1, endColumn: column + columns - 1 };
}
export function rectOfRange({ startRow, startColumn, endRow, endColumn }: IRange): Rect {
  return {
    row: startRow,
    column: startColumn,
    rows: endRow - startRow + 1,
    columns: endColumn - startColumn + 1,
  };
}
