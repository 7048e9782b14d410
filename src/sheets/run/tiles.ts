import { GRID_NAMES } from '../../photometry/points';
import { type Primary, patternShowing, tilePrimary } from '../../photometry/tiles';
import { cellsOf } from '../address';
import { block, type PlanBuilder, shift } from '../builder';
import { type BandRows, putState } from './bandrows';
import { FORMAT } from './layout';
import type { FieldContext } from './net';
import { above0, type GridSpec, putInputs, stateFormula } from './readings';
import { putRepeats } from './repeats';

/** Where a pattern stands. */
export interface PlacedPattern {
  /** The grid results are computed from: the only one, or the means. */
  readonly shown: string;
  readonly ranges: string;
  /** Cells of one point: its first reading and its repeats. */
  readonly cells: readonly (readonly string[])[];
}

/** One of the three tiled patterns, entered as it lies on the screen. */
export function putPattern(
  b: PlanBuilder,
  column: string,
  rows: BandRows,
  pattern: number,
  context: FieldContext,
): PlacedPattern {
  const letter = 'ABC'[pattern]!;
  const title = `Pattern ${letter}, tiled`;
  b.wide(block(column, rows.head, 1, 3), { role: 'heading', value: title });
  const spec: GridSpec = {
    stem: `Pattern${letter}`,
    title,
    rows: 3,
    columns: 3,
    range: context.range,
    names: GRID_NAMES,
  };
  const readings = block(column, rows.readings, 3, 3);
  const ranges = block(column, rows.ranges, 3, 3);
  putInputs(b, spec, readings, ranges);
  b.name(`Pattern${letter}`, readings, `${title}: numbers on the display`);
  b.name(`Pattern${letter}Range`, ranges, `${title}: range factors`);
  const first = shift(`${column}${rows.readings}`, 3, 0);
  const { range, cells } = putRepeats(b, first, spec, readings, context.repeats);
  putState(b, column, rows, stateFormula(range, GRID_NAMES, above0));
  cellsOf(block(column, rows.net, 3, 3)).forEach((at, i) => {
    b.put(at, { role: 'derived', value: `(${tilePrimary(pattern, Math.floor(i / 3), i % 3)})` });
  });
  return { shown: range, ranges, cells };
}

/** The nine readings of one primary, each taken from the pattern that shows it there. */
export function putSorted(
  b: PlanBuilder,
  column: string,
  rows: BandRows,
  stem: 'Red' | 'Green' | 'Blue',
  patterns: readonly PlacedPattern[],
) {
  const primary = stem.toLowerCase() as Primary;
  const showing = (i: number) => patterns[patternShowing(primary, Math.floor(i / 3), i % 3)]!;
  const readings = block(column, rows.readings, 3, 3);
  const ranges = block(column, rows.ranges, 3, 3);
  const copy = (range: string, of: (pattern: PlacedPattern) => string, format: string) =>
    cellsOf(range).forEach((at, i) => {
      const source = cellsOf(of(showing(i)))[i]!;
      b.put(at, { role: 'derived', formula: `=IF(ISBLANK(${source}),"",${source})`, format });
    });
  const isMean = patterns[0]!.cells[0]!.length > 1;
  copy(readings, ({ shown }) => shown, isMean ? FORMAT.display : FORMAT.general);
  copy(ranges, (pattern) => pattern.ranges, FORMAT.factor);
  return { readings, ranges, shown: readings, cells: GRID_NAMES.map((_, i) => showing(i).cells[i]!) };
}
