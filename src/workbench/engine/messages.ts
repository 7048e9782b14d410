import { Grid } from './grid';

/** Texts kept by sheet and cell: what a custom function said about its error. */
export class Messages {
  readonly #sheets = new Map<string, Grid<string>>();

  get(sheet: string, row: number, column: number): string | undefined {
    return this.#sheets.get(sheet)?.get(row, column);
  }
  set(sheet: string, row: number, column: number, message: string | undefined): void {
    let grid = this.#sheets.get(sheet);
    if (!grid) {
      if (message === undefined) return;
      grid = new Grid();
      this.#sheets.set(sheet, grid);
    }
    grid.set(row, column, message);
  }
}
