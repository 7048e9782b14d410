import { cellsOf } from '../address';
import { block, type PlanBuilder } from '../builder';
import { FORMAT } from './layout';
import { type GridSpec, validateReadings } from './readings';

/** Where the readings of a grid stand, repeats included. */
export interface RepeatedGrid {
  /** The grid results are computed from: the only one, or the means. */
  readonly range: string;
  /** Cells of one point: its first reading and its repeats. */
  readonly cells: readonly (readonly string[])[];
  readonly next: number;
}

/** Blocks that stand side by side: three grids fit the sheet's columns. */
const COLUMNS = ['B', 'F', 'J'] as const;

/**
 * Further readings of the same nine points, grid by grid below the first, and last the grid of means. A point
 * has a mean only when all its repeats are there: a missing one is never averaged away.
 */
export function putRepeats(
  b: PlanBuilder,
  row: number,
  spec: GridSpec,
  first: string,
  repeats: number,
): RepeatedGrid {
  const firsts = cellsOf(first);
  if (repeats === 1) return { range: first, cells: firsts.map((at) => [at]), next: row };
  const slots = Array.from({ length: repeats }, (_, k) => ({
    column: COLUMNS[k % COLUMNS.length]!,
    row: row + 1 + Math.floor(k / COLUMNS.length) * (spec.rows + 1),
  }));
  const grids = slots.map(({ column, row: r }) => block(column, r, spec.rows, spec.columns));
  const bands = Math.ceil(repeats / COLUMNS.length);
  for (let band = 0; band < bands; band++) putBandHeading(b, row + band * (spec.rows + 1), band, repeats);
  grids.slice(0, -1).forEach((range, k) => {
    b.put(range, { role: 'reading', format: FORMAT.general });
    validateReadings(b, range, `${spec.title}, repeat ${k + 2}`);
    b.name(
      `${spec.stem}Repeat${k + 2}`,
      range,
      `${spec.title}: numbers on the display, repeat ${k + 2}, same range factors`,
    );
  });
  const cells = firsts.map((at, i) => [at, ...grids.slice(0, -1).map((range) => cellsOf(range)[i]!)]);
  const means = grids[grids.length - 1]!;
  cellsOf(means).forEach((at, i) => {
    const list = cells[i]!.join(',');
    b.put(at, {
      role: 'derived',
      formula: `=IF(COUNT(${list})<${repeats},"",AVERAGE(${list}))`,
      format: FORMAT.mean,
    });
  });
  b.innerName(`${spec.stem}Mean`, means, `${spec.title}: mean of the repeats, number on the display`);
  return { range: means, cells, next: row + bands * (spec.rows + 1) };
}

function putBandHeading(b: PlanBuilder, row: number, band: number, repeats: number): void {
  const words = (k: number) => (k < repeats - 1 ? `repeat ${k + 2}` : k === repeats - 1 ? 'mean of all' : '');
  b.put(`A${row}`, { role: 'label', value: band === 0 ? 'The same points again' : '' });
  b.wide(`B${row}:D${row}`, { role: 'label', value: words(band * 3) });
  b.wide(`F${row}:H${row}`, { role: 'label', value: words(band * 3 + 1) });
  b.wide(`J${row}:L${row}`, { role: 'label', value: words(band * 3 + 2) });
}
