import { cellName, rectOf } from '../sheets/address';
import type { Plan } from '../sheets/plan';
import { filledAreas, matrix } from './areas';
import type { RowCopy } from './likerows';
import type { Ranges } from './ranges';

const GENERAL = 'General';

/** Number formats of a plan's cells, and what of them stands already: a cell has none at first, a copied look brings one. */
export class Formats {
  readonly #standing = new Map<string, string>();

  constructor(private readonly plan: Plan) {}

  /** Rows were given the looks of others, and their formats with them. */
  carry({ row, rows, from, height }: RowCopy, width: number): void {
    for (let r = 0; r < rows; r++) {
      for (let c = 0; c < width; c++) {
        const brought = this.#standing.get(cellName(from + (r % height), c));
        if (brought === undefined) this.#standing.delete(cellName(row + r, c));
        else this.#standing.set(cellName(row + r, c), brought);
      }
    }
  }

  /** Writes what is not there yet. */
  write(ranges: Ranges, areas: readonly string[], isDue: (row: number) => boolean = () => true): void {
    const missing = (at: string) => {
      const planned = this.plan.cells[at]?.format ?? GENERAL;
      const isThere = planned === (this.#standing.get(at) ?? GENERAL);
      return isThere || !isDue(rectOf(at).row) ? null : planned;
    };
    const wanted = areas.flatMap((area) => filledAreas(area, (at) => missing(at) !== null));
    const written = wanted.map((area) => ({ area, formats: matrix(area, missing) }));
    for (const { area, formats } of written) {
      ranges.at(area).numberFormat = formats as string[][];
      const { row, column } = rectOf(area);
      formats.forEach((line, r) => {
        line.forEach((format, c) => {
          if (format !== null) this.#standing.set(cellName(row + r, column + c), format);
        });
      });
    }
  }
}
