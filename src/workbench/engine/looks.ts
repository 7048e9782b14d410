import type { IStyleData } from '@univerjs/core';
import type { CellTable } from './port';

/**
 * Looks of one sheet that wait to be written in one go. Writing a look costs the engine a search through all the
 * looks it knows, so a cell is written once and not once a property. Cells that went the same way share one object.
 */
export class Looks {
  readonly #rows = new Map<number, Map<number, IStyleData>>();

  get(row: number, column: number): IStyleData | undefined {
    return this.#rows.get(row)?.get(column);
  }

  /** Adds to what waits for some cells. */
  add(
    area: { row: number; column: number; rows: number; columns: number },
    styleAt: (row: number, column: number) => IStyleData,
  ): void {
    const merged = new Map<IStyleData | undefined, Map<IStyleData, IStyleData>>();
    for (let row = area.row; row < area.row + area.rows; row++) {
      const line = this.#rows.get(row) ?? new Map<number, IStyleData>();
      this.#rows.set(row, line);
      for (let column = area.column; column < area.column + area.columns; column++) {
        const before = line.get(column);
        const style = styleAt(row, column);
        const known = merged.get(before) ?? new Map<IStyleData, IStyleData>();
        merged.set(before, known);
        const now = known.get(style) ?? { ...before, ...style };
        known.set(style, now);
        line.set(column, now);
      }
    }
  }

  /** Everything that waits, as the engine takes it. */
  table(): CellTable {
    const table: CellTable = {};
    for (const [row, line] of this.#rows) {
      const cells: CellTable[number] = {};
      for (const [column, s] of line) cells[column] = { s };
      table[row] = cells;
    }
    return table;
  }
}
