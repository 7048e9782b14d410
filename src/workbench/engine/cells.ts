import type { ICellData, IStyleData } from '@univerjs/core';
import type { Rect } from '../../sheets/address';
import { type CellValue, isErrorKind } from '../../sheets/book';
import { withoutIntersection } from '../../sheets/intersection';
import { moveFormula } from '../../sheets/move';
import { tokens } from '../../sheets/tokens';
import { Grid } from './grid';
import type { Ground } from './ground';
import { cellOf, type Entry, richText, TYPE } from './input';
import { GETTING_DATA } from './later';
import { Looks } from './looks';
import type { CellTable } from './port';
import { around, contains, corners, formatAddress, sheetPrefix } from './reference';

/** The cells of one sheet: contents and looks, which live in the embedded engine. */
export class SheetCells {
  /** Looks that wait to be written in one go. */
  #looks: Looks | undefined;
  readonly #spelt = new Grid<{ readonly formula: string; readonly shown: string }>();

  constructor(
    readonly engine: Ground,
    readonly id: string,
  ) {}

  get shown() {
    return this.engine.port.sheet(this.id);
  }
  get name(): string {
    return this.engine.port.sheetName(this.id);
  }
  get position(): number {
    return this.engine.port.sheetIds().indexOf(this.id);
  }
  /** `'Run 1'!B2:D4`. */
  address(rect: Rect): string {
    return sheetPrefix(this.name) + formatAddress(rect);
  }

  /** The cell as the engine stores it (`stored`), with what an array result spills into it. */
  cell(row: number, column: number): ICellData | undefined {
    const cell = this.engine.port.stored(this.id, row, column);
    if (cell && (cell.f || cell.si || cell.p || (cell.v !== undefined && cell.v !== null))) return cell;
    return this.isSpilled(row, column) ? this.engine.port.spilled(this.id, row, column) : cell;
  }
  /** True for the cells an array result fills beside its own. */
  isSpilled(row: number, column: number): boolean {
    return this.#spilledFrom(row, column) !== undefined;
  }
  #spilledFrom(row: number, column: number): Rect | undefined {
    for (const rect of this.engine.port.spills(this.id))
      if (contains(rect, row, column) && (rect.row !== row || rect.column !== column)) return rect;
    return undefined;
  }
  value(row: number, column: number): CellValue {
    const cell = this.cell(row, column);
    if (cell?.p) return richText(cell) ?? '';
    if (!cell || cell.v === undefined || cell.v === null || cell.v === '') return null;
    if (cell.t === TYPE.boolean) return Boolean(cell.v);
    if (cell.v === GETTING_DATA && cell.t !== TYPE.forcedText) return { error: '#BUSY!' };
    if (typeof cell.v === 'string' && isErrorKind(cell.v) && cell.t !== TYPE.forcedText) {
      const message = this.engine.errorMessage(this.id, row, column);
      return { error: cell.v, ...(message === undefined ? {} : { message }) };
    }
    return cell.t === TYPE.number && typeof cell.v === 'string' ? Number(cell.v) : (cell.v as CellValue);
  }
  /** True for a cell without contents of its own, whatever it looks like. */
  isBare(row: number, column: number): boolean {
    const cell = this.engine.port.stored(this.id, row, column);
    return !cell?.f && !cell?.si && !cell?.p && (cell?.v === undefined || cell.v === null || cell.v === '');
  }
  /** As it was typed, with the names of the workbook; undefined for a cell without one. */
  formula(row: number, column: number): string | undefined {
    const formula = this.engine.port.cell(this.id, row, column)?.f;
    return formula ? this.engine.decode(formula, this.id) : undefined;
  }
  /** The same as the program shows it to add-ins: with the `@` it was written with, or read from a file with. */
  formulaShown(row: number, column: number): string | undefined {
    const formula = this.formula(row, column);
    if (formula === undefined && this.isBare(row, column)) {
      // A cell that an array result fills may tell its formula, as it does to macros (reference of Range.Formula2).
      const from = this.#spilledFrom(row, column);
      return from && this.formulaShown(from.row, from.column);
    }
    const spelt = this.#spelt.get(row, column);
    return formula !== undefined && spelt?.formula === formula ? spelt.shown : formula;
  }
  /** Keeps how a formula is shown, where that is not as the engine holds it. */
  spell(row: number, column: number, formula: string, shown: string): void {
    this.#spelt.set(row, column, formula === shown ? undefined : { formula, shown });
  }
  style(row: number, column: number): IStyleData {
    const style = this.engine.port.style(this.engine.port.stored(this.id, row, column));
    const waiting = this.#looks?.get(row, column);
    return waiting ? { ...style, ...waiting } : style;
  }
  numberFormat(row: number, column: number): string {
    return this.style(row, column).n?.pattern ?? 'General';
  }

  /** Gives cells of a rectangle new contents; `undefined` leaves one alone. Asks no permission. */
  enter(rect: Rect, entryAt: (row: number, column: number) => Entry | undefined): void {
    this.writeLooks();
    const table: CellTable = {};
    for (let row = rect.row; row < rect.row + rect.rows; row++) {
      for (let column = rect.column; column < rect.column + rect.columns; column++) {
        const entry = entryAt(row, column);
        if (!entry) continue;
        const cell = cellOf(this.#bare(entry, row, column), (formula) =>
          this.engine.encode(formula, this.id),
        );
        const format = entry.kind === 'value' ? entry.format : undefined;
        if (format && this.numberFormat(row, column) === 'General') cell.s = { n: { pattern: format } };
        const line = table[row] ?? {};
        line[column] = cell;
        table[row] = line;
        this.engine.forgetMessage(this.id, row, column);
      }
    }
    if (Object.keys(table).length === 0) return;
    this.engine.port.reach(this.id, rect.row + rect.rows - 1, rect.column + rect.columns - 1);
    this.engine.port.write(this.id, table);
  }

  /** A formula without the `@` that changes nothing, which the engine does not need to know of. */
  #bare(entry: Entry, row: number, column: number): Entry {
    if (entry.kind !== 'formula' || !entry.formula.includes('@')) return entry;
    const formula = withoutIntersection(tokens(entry.formula))
      .map(({ text }) => text)
      .join('');
    this.spell(row, column, formula, entry.formula);
    return { kind: 'formula', formula };
  }

  /**
   * Copies what stands in a rectangle into another one, again and again where that is larger. A formula that is
   * repeated is kept once and shared, as the engine does it for cells a person fills down.
   */
  copyContents(from: SheetCells, source: Rect, target: Rect): void {
    const table: CellTable = {};
    const ids = new Map<string, string>();
    for (let r = 0; r < target.rows; r++) {
      for (let c = 0; c < target.columns; c++) {
        const at = { row: source.row + (r % source.rows), column: source.column + (c % source.columns) };
        const formula = from.formula(at.row, at.column);
        const [row, column] = [target.row + r, target.column + c];
        table[row] ??= {};
        if (formula === undefined) {
          const { v = null, t = null, p = null } = this.engine.port.stored(from.id, at.row, at.column) ?? {};
          table[row][column] = { v, t, p, f: null, si: null };
        } else {
          const key = `${at.row},${at.column}`;
          const shared = ids.get(key);
          if (shared === undefined) {
            const si = this.engine.nextId();
            ids.set(key, si);
            const moved = moveFormula(formula, row - at.row, column - at.column);
            table[row][column] = { v: null, p: null, f: this.engine.encode(moved, this.id), si };
          } else table[row][column] = { v: null, p: null, f: null, si: shared };
        }
        this.engine.forgetMessage(this.id, row, column);
      }
    }
    this.engine.port.reach(this.id, target.row + target.rows - 1, target.column + target.columns - 1);
    this.engine.port.write(this.id, table);
  }

  /** Changes the look of a rectangle; `null` in a style takes a property away. */
  restyle(rect: Rect, styleAt: (row: number, column: number) => IStyleData): void {
    const area = this.clip(rect);
    this.engine.port.reach(this.id, area.row + area.rows - 1, area.column + area.columns - 1);
    this.#looks ??= new Looks();
    this.#looks.add(area, styleAt);
    this.engine.looksWait(this);
  }
  /** Changes of looks made while `work` runs are written as one. */
  together(work: () => void): void {
    const release = this.engine.holdLooks();
    try {
      work();
    } finally {
      release();
    }
  }
  /** Writes the looks that wait. */
  writeLooks(): void {
    const looks = this.#looks;
    this.#looks = undefined;
    if (looks) this.engine.port.writeStyle(this.id, looks.table());
  }
  /** A whole row or column → the part of it that is shown; anything else stays as it is. */
  clip(rect: Rect): Rect {
    const shown = this.shown;
    const rows = rect.rows > 10_000 ? Math.min(rect.rows, shown.getMaxRows() - rect.row) : rect.rows;
    const columns =
      rect.columns > 1_000 ? Math.min(rect.columns, shown.getMaxColumns() - rect.column) : rect.columns;
    return { ...rect, rows: Math.max(rows, 1), columns: Math.max(columns, 1) };
  }

  /** The smallest rectangle around everything; undefined on an empty sheet. Looks count unless `valuesOnly`. */
  used(valuesOnly: boolean): Rect | undefined {
    this.writeLooks();
    return around(this.#filled(valuesOnly));
  }
  *#filled(valuesOnly: boolean): Iterable<readonly [number, number]> {
    for (const { row, column, cell } of this.engine.port.cells(this.id)) {
      const hasValue =
        cell.f || cell.si || cell.p || (cell.v !== undefined && cell.v !== null && cell.v !== '');
      if (hasValue || (!valuesOnly && cell.s)) yield [row, column];
    }
    for (const spill of this.engine.port.spills(this.id)) yield* corners(spill);
  }
}
