import { addressOf, cellsOf, rectOf } from '../address';
import type { PlanBuilder } from '../builder';
import { FORMAT } from './layout';
import { type GridSpec, validateReadings } from './readings';

/** Where the readings of a grid stand, repeats included. */
export interface RepeatedGrid {
  /** The grid results are computed from: the only one, or the means. */
  readonly range: string;
  /** Cells of one point: its first reading and its repeats. */
  readonly cells: readonly (readonly string[])[];
}

/** Rows that repeats and their means take below the first readings. */
export function repeatRows(repeats: number): number {
  return repeats > 1 ? 4 * repeats : 0;
}

/**
 * Further readings of the same nine points, grid by grid below the first, and last the grid of means, each below a row
 * for its label. A point has a mean only when all its repeats are there: a missing one is never averaged away.
 *
 * @param at first cell of the row below the first readings
 */
export function putRepeats(
  b: PlanBuilder,
  at: string,
  spec: GridSpec,
  first: string,
  repeats: number,
): RepeatedGrid {
  const firsts = cellsOf(first);
  if (repeats === 1) return { range: first, cells: firsts.map((cell) => [cell]) };
  const { row, column } = rectOf(at);
  const grids = Array.from({ length: repeats }, (_, k) =>
    addressOf({ row: row + 1 + k * (spec.rows + 1), column, rows: spec.rows, columns: spec.columns }),
  );
  grids.slice(0, -1).forEach((range, k) => {
    b.put(range, { role: 'reading', format: FORMAT.general });
    validateReadings(b, range, `${spec.title}, repeat ${k + 2}`, 'below');
    b.name(
      `${spec.stem}Repeat${k + 2}`,
      range,
      `${spec.title}: numbers on the display, repeat ${k + 2}, same range factors`,
    );
  });
  const cells = firsts.map((cell, i) => [cell, ...grids.slice(0, -1).map((range) => cellsOf(range)[i]!)]);
  const means = grids[grids.length - 1]!;
  cellsOf(means).forEach((mean, i) => {
    const list = cells[i]!.join(',');
    b.put(mean, {
      role: 'derived',
      formula: `=IF(COUNT(${list})<${repeats},"",AVERAGE(${list}))`,
      format: FORMAT.display,
    });
  });
  b.innerName(`${spec.stem}Mean`, means, `${spec.title}: mean of the repeats, number on the display`);
  return { range: means, cells };
}
