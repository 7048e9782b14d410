import { GRID_NAMES } from '../../photometry/points';
import { block, type PlanBuilder, shift } from '../builder';
import { type BandRows, putState } from './bandrows';
import { FORMAT, GRID_COLUMNS } from './layout';
import { ambientOf, type FieldContext, nameGrid, putNet, type Stem } from './net';
import { above0, anyNumber, type GridSpec, putInputs, stateFormula } from './readings';
import { putRepeats, repeatRows } from './repeats';
import type { FieldCells } from './stems';
import { type PlacedPattern, putPattern, putSorted } from './tiles';

/** A grid of nine points in a band. */
export type BandGrid =
  /** Readings of a field that are typed. */
  | { readonly kind: 'field'; readonly stem: Stem }
  /** One of the three tiled patterns, counted from 0. */
  | { readonly kind: 'pattern'; readonly pattern: number }
  /** The readings of a primary, each from the pattern that shows it there. */
  | {
      readonly kind: 'sorted';
      readonly stem: 'Red' | 'Green' | 'Blue';
      readonly patterns: readonly PlacedPattern[];
    };

/** What the rest of the sheet needs of a band: the cells of each point's readings, repeats included, grid by grid. */
export interface PlacedBand {
  readonly next: number;
  readonly cells: FieldCells;
  readonly patterns: readonly PlacedPattern[];
}

/**
 * Up to four grids side by side: readings with their repeats, how far they are, net illuminances and range factors; what
 * is odd about each below.
 */
export function putBand(
  b: PlanBuilder,
  row: number,
  grids: readonly BandGrid[],
  context: FieldContext,
): PlacedBand {
  const repeats = Math.max(...grids.map((grid) => repeatsOf(grid, context)));
  const state = row + 4 + repeatRows(repeats);
  const rows = { head: row, readings: row + 1, state, net: state + 1, ranges: state + 4 };
  putLabels(b, rows, repeats);
  const cells: FieldCells = {};
  const patterns: PlacedPattern[] = [];
  let next = rows.ranges + 3;
  for (const [i, grid] of grids.entries()) {
    const column = GRID_COLUMNS[i]!;
    if (grid.kind === 'pattern') {
      patterns.push(putPattern(b, column, rows, grid.pattern, context));
      continue;
    }
    const { stem } = grid;
    const isReading = stem === 'Black' ? anyNumber : above0;
    const title = grid.kind === 'field' ? `${stem}, full field` : `${stem}, from the tiles`;
    b.wide(block(column, row, 1, 3), { role: 'heading', value: title });
    const placed =
      grid.kind === 'field'
        ? putTyped(b, column, rows, { stem, title }, repeatsOf(grid, context), context)
        : putSorted(b, column, rows, grid.stem, grid.patterns);
    const net = block(column, rows.net, 3, 3);
    putState(b, column, rows, stateFormula(placed.shown, GRID_NAMES, isReading));
    putNet(b, { readings: placed.shown, ranges: placed.ranges, net }, stem, ambientOf(context), isReading);
    nameGrid(b, { stem, title }, { ...placed, net }, grid.kind === 'sorted');
    const isRepeated = placed.shown !== placed.readings;
    putRemarks(b, next++, stem, title, isRepeated ? `${stem}Mean` : `${stem}Readings`, context);
    cells[stem] = placed.cells;
  }
  return { next, cells, patterns };
}

/** Black decides nothing to a per cent; it is read once. What is sorted has the means of its patterns. */
function repeatsOf(grid: BandGrid, { repeats }: FieldContext): number {
  return grid.kind === 'sorted' || (grid.kind === 'field' && grid.stem === 'Black') ? 1 : repeats;
}

/** What stands in each row of the grids. */
function putLabels(b: PlanBuilder, { head, readings, state, net, ranges }: BandRows, repeats: number): void {
  const label = (row: number, value: string) => b.put(`A${row}`, { role: 'label', value });
  b.put(`A${head}`, { role: 'heading', value: 'As seen facing the screen' });
  label(readings, 'Number on the display');
  for (let k = 0; repeats > 1 && k < repeats; k++)
    label(readings + 3 + 4 * k, k === repeats - 1 ? 'Mean of all' : `The same points, repeat ${k + 2}`);
  label(state, 'Taken');
  b.height(state, STATE);
  label(net, 'Net illuminance, lx');
  label(ranges, 'Range factor');
}

/** Four lines of small print: a grid with one reading names the other eight. */
const STATE = 46;

function putTyped(
  b: PlanBuilder,
  column: string,
  rows: BandRows,
  { stem, title }: { stem: Stem; title: string },
  repeats: number,
  context: FieldContext,
) {
  const spec: GridSpec = { stem, title, rows: 3, columns: 3, range: context.range, names: GRID_NAMES };
  const readings = block(column, rows.readings, 3, 3);
  const ranges = block(column, rows.ranges, 3, 3);
  putInputs(b, spec, readings, ranges);
  const { range, cells } = putRepeats(b, shift(`${column}${rows.readings}`, 3, 0), spec, readings, repeats);
  return { readings, ranges, shown: range, cells };
}

/** For remarks, which must not wait for the ambient reading: 0 until it is there. */
function ambientIfThere({ ambient }: FieldContext): string {
  return ambient === 'none' ? 'AmbientLux' : `IF(COUNT(AmbientMean)=0,0,AmbientLux)`;
}

function putRemarks(
  b: PlanBuilder,
  row: number,
  stem: Stem,
  title: string,
  display: string,
  context: FieldContext,
): void {
  const call = `IFERROR(LIGHT.FINDINGS("${stem.toLowerCase()}",${display},MeterUnit,${stem}Range,CalibrationFactor,${ambientIfThere(context)},MeterDigit),"remarks need the add-in")`;
  // Black may read 0, and an empty cell reaches a function as 0: the sheet counts first.
  const remarks = stem === 'Black' ? `IF(COUNT(BlackReadings)<9,"no complete grid yet",${call})` : call;
  b.put(`A${row}`, { role: 'label', value: `Remarks, ${stem.toLowerCase()}` });
  // The function stands in a cell of its own, which shows nothing: Excel takes no array result in merged cells, and
  // words over two lines need those.
  b.put(`L${row}`, { role: 'check', formula: `=${remarks}`, format: FORMAT.unseen });
  b.wide(`B${row}:K${row}`, { role: 'check', formula: `=L${row}` });
  b.height(row, 26);
  b.name(`${stem}Remarks`, `B${row}`, `${title}: what is wrong or odd, in words`);
}
