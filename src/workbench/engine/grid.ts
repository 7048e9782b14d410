/** A sparse table of things kept beside the cells: locks, notes. Rows and columns count from zero. */
export class Grid<T> {
  #cells = new Map<string, { row: number; column: number; item: T }>();

  get(row: number, column: number): T | undefined {
    return this.#cells.get(`${row},${column}`)?.item;
  }
  set(row: number, column: number, item: T | undefined): void {
    if (item === undefined) this.#cells.delete(`${row},${column}`);
    else this.#cells.set(`${row},${column}`, { row, column, item });
  }
  *entries(): Iterable<{ row: number; column: number; item: T }> {
    yield* this.#cells.values();
  }
  /** Each cell goes where `move` says; `undefined` drops it. Used when rows or columns come or go. */
  rearrange(move: (row: number, column: number) => readonly [number, number] | undefined): void {
    const before = [...this.#cells.values()];
    this.#cells = new Map();
    for (const { row, column, item } of before) {
      const to = move(row, column);
      if (to) this.set(to[0], to[1], item);
    }
  }
  copy(): Grid<T> {
    const grid = new Grid<T>();
    for (const { row, column, item } of this.#cells.values()) grid.set(row, column, item);
    return grid;
  }
}
